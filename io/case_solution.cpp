#include "io/case_reading.hpp"

#include "io/library.hpp"
#include "io/nearest.hpp"
#include "io/quote.hpp"

#include <fmt/format.h>

namespace thinspot::io {

namespace {

void read_metal(Reading& r, TableReader& t) {
  const auto name = t.text("metal");
  if (!name) return;
  const std::vector<solver::Metal> metals = read_metals(library_folder());
  std::vector<std::string> names;
  for (const solver::Metal& metal : metals) {
    if (metal.name == *name) r.content.solution.metal = metal;
    names.push_back(metal.name);
  }
  if (!r.content.solution.metal.name.empty()) return;
  const auto near = nearest(*name, names);
  t.wrong("metal", in_quotes(*name) + " is not in the library of metals",
          near ? fmt::format("is \"{}\" meant?", *near)
               : "it has " + listed(names));
}

void assume_efficiency(Reading& r) {
  solver::Solution& solution = r.content.solution;
  const bool copper = solution.metal.name == "copper";
  solution.efficiency = {1.0, copper ? 0.02 : 0.05};
  r.content.assumed.push_back(
      {"solution.efficiency", fmt::format("100 % +- {} %", copper ? 2 : 5),
       copper ? "left out; acid copper loses next to nothing to hydrogen"
              : "left out; many solutions lose some current to hydrogen, a few "
                "lose much: weigh a test piece"});
}

}  // namespace

void read_solution(Reading& r) {
  TableReader t = open_table(r, "solution");
  if (!t.present()) return;
  if (t.has("use"))
    t.wrong("use", "the library of solutions is not there yet",
            "leave it out and give conductivity and metal inline, as in "
            "conductivity = \"18 S/m\"");
  solver::Solution& solution = r.content.solution;
  read_metal(r, t);
  solution.name = t.text("name").value_or(solution.metal.name + " solution");
  if (const auto given = t.quantity("conductivity"))
    solution.conductivity = *given;
  if (const auto given = t.quantity("efficiency"))
    solution.efficiency = *given;
  else if (!t.has("efficiency"))
    assume_efficiency(r);
  solution.limiting_current_density = t.value("limiting_current_density");
  if (const auto given = t.value("temperature")) solution.temperature = *given;
  if (const auto given = t.text("stirring")) solution.stirring = *given;
}

}  // namespace thinspot::io
