// What a small change does to the thinnest judged spot: against the same case
// solved again with the change made, on its meshes.
#include "solver/levers.hpp"

#include "bench_cases.hpp"
#include "solver/deposit.hpp"
#include "solver/outcome.hpp"
#include "solver/step_case.hpp"
#include "solver/what_if.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

using namespace thinspot;

namespace {

/// Share of its thickness that the thinnest spot of a case of one step gains
/// with a hundredth of the change, a hundred times.
double gained(const solver::Schedule& s, const solver::Case& moved) {
  const solver::Outcome o =
      solver::evaluate(s.last().solved->model, solver::case_of_step(moved, 0));
  const double growth = solver::growth_per_density(moved);
  const double before = s.spreads[0].least_judged.value;
  return 100 * (growth * o.parts[0].least_judged.value / before - 1);
}

const solver::Lever* find(const std::vector<solver::Lever>& all,
                          const std::string& words) {
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const solver::Lever& l) {
        return l.words.find(words) != std::string::npos;
      });
  return found == all.end() ? nullptr : &*found;
}

solver::Case token() {
  solver::Case c = tests::token();
  c.target.faces = {"left", "right"};
  return c;
}

}  // namespace

TEST_CASE("levers do what a small change does", "[sensitivity]") {
  solver::Case c = token();
  bool voltage = false;
  SECTION("at a current") {}
  SECTION("at a voltage") {
    voltage = true;
    c.supply = {};
    c.supply.voltage = solver::Quantity{0.6, 0};
    c.supply.lead_resistance.value = 0.2;
  }
  const solver::Schedule s = solver::run_schedule(c);
  const auto all = solver::levers(s, c);
  const double least = s.spreads[0].least_judged.value;
  for (const solver::Lever& l : all) {
    CAPTURE(l.words);
    CHECK(l.change == Approx(l.share * least));
  }
  CHECK(
      std::is_sorted(all.begin(), all.end(), [](const auto& a, const auto& b) {
        return std::abs(a.share) > std::abs(b.share);
      }));
  // A hundredth of a tenth leaves its square's share of what bends.
  const auto compare = [&](const std::string& words, const std::string& key,
                           const solver::Case& moved) {
    const solver::Lever* lever = find(all, words);
    CAPTURE(words);
    REQUIRE(lever);
    CHECK(lever->key == key);
    CHECK(lever->share ==
          Approx(std::abs(gained(s, moved))).epsilon(5e-3).margin(1e-5));
  };
  compare("a solution that conducts 10 % better", "solution.conductivity",
          solver::turned_by(c, 1, 1.001, 1));
  const solver::Case polarized = solver::turned_by(c, 1, 1, 1.001);
  const bool helps = gained(s, polarized) > 0;
  compare(helps ? "10 % more polarization" : "10 % less polarization",
          "cathode.polarization_resistance", polarized);
  compare(voltage ? "10 % more voltage" : "10 % more current",
          voltage ? "supply.voltage" : "supply.current",
          solver::turned_by(c, 1.001, 1, 1));
  solver::Case longer = c;
  longer.steps[0].duration.value += 0.6;
  compare("1 min longer", "step.1.duration", longer);
  CHECK((find(all, "leads of 10 % less resistance") != nullptr) == voltage);
}
