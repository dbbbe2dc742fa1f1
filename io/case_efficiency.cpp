#include "io/case_solution.hpp"
#include "solver/efficiency.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io {

namespace {

constexpr const char* kExample =
    "efficiency = [\"95 %\", \"80 %\"], efficiency_at = [\"1 A/dm2\", "
    "\"6 A/dm2\"]";

/// Notes what is wrong with a table. @returns whether nothing is.
bool is_sound(TableReader& t, const std::vector<solver::EfficiencyAt>& table) {
  const auto not_rising = [](const auto& a, const auto& b) {
    return a.density >= b.density;
  };
  if (std::adjacent_find(table.begin(), table.end(), not_rising) !=
      table.end()) {
    t.wrong("efficiency_at", "does not rise from each to the next",
            "begin with the lowest current density");
    return false;
  }
  if (!solver::deposits_more_with_more(table)) {
    t.wrong("efficiency",
            "falls so fast that more current would deposit less metal",
            "check the numbers; beyond such a point a solution burns: see "
            "limiting_current_density");
    return false;
  }
  return true;
}

}  // namespace

void read_efficiency(CaseReading& r, TableReader& t) {
  solver::Solution& solution = r.content.solution;
  const auto given = t.all_quantities("efficiency");
  const auto at = t.all_quantities("efficiency_at");
  if (t.has("efficiency_at") && !t.has("efficiency"))
    t.wrong("efficiency_at", "stands without efficiency",
            std::string("as in ") + kExample);
  if (!given || (t.has("efficiency_at") && !at)) return;
  if (!at && given->size() != 1) {
    t.wrong("efficiency",
            fmt::format("is a list of {} without efficiency_at", given->size()),
            std::string("one for all, or with the current densities that they "
                        "hold at: ") +
                kExample);
    return;
  }
  if (at && (at->size() != given->size() || at->size() < 2)) {
    t.wrong("efficiency_at",
            fmt::format("has {} and efficiency {}", at->size(), given->size()),
            std::string("two or more, as many of one as of the other: ") +
                kExample);
    return;
  }
  solution.efficiency = given->front();
  note_source(solution, "efficiency", "given", "as given");
  if (!at) return;
  std::vector<solver::EfficiencyAt> table;
  for (std::size_t k = 0; k < at->size(); ++k) {
    table.push_back({(*at)[k].value, (*given)[k].value});
    // One tolerance for all of the table: the widest.
    if ((*given)[k].plus_minus <= solution.efficiency.plus_minus) continue;
    solution.efficiency.plus_minus = (*given)[k].plus_minus;
    solution.efficiency.evenly = (*given)[k].evenly;
  }
  if (!is_sound(t, table)) return;
  if (r.content.growth)
    t.wrong("efficiency_at", "is not computed together with growth",
            "leave growth out, or give one efficiency for all");
  solution.efficiency_table = std::move(table);
}

void settle_efficiency(CaseReading& r) {
  solver::refer_efficiency_to(r.content.solution, likely_density(r));
}

}  // namespace thinspot::io
