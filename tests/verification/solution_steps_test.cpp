// Steps in solution of another temperature or conductivity.
#include "bench_cases.hpp"
#include "solved.hpp"
#include "solver/schedule.hpp"
#include "solver/simulate.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace thinspot;

namespace {

/// At fixed potentials and a set voltage the current of a channel goes with
/// its conductivity, and so does what a step leaves.
solver::Case cell() {
  solver::Case c = tests::channel(0.1, 0.03, 5, 0, 0, 1);
  c.solution.temperature = 293.15;
  c.steps = {{{600, 0}}, {{600, 0}}};
  return c;
}

solver::Spread thickness(const solver::Result& r) {
  return r.parts[0].thickness.value;
}

}  // namespace

TEST_CASE("a warmer step conducts better, as far as that is known", "[exact]") {
  solver::Case c = cell();
  const double both = thickness(solver::simulate(c)).mean;
  c.steps[1].temperature = 303.15;
  const solver::Result r = solver::simulate(c);
  // d ln(conductivity) / dT = 0.02 +- 0.01 over 10 K.
  CHECK(thickness(r).mean == Approx(both * (1 + std::exp(0.2)) / 2));
  const auto& band = r.parts[0].thickness.mean_band;
  CHECK(band.high == Approx(both * (1 + std::exp(0.3)) / 2));
  CHECK(band.low == Approx(both * (1 + std::exp(0.1)) / 2));
  CHECK(*r.steps[0].conductivity == 5);
  CHECK(*r.steps[1].conductivity == Approx(5 * std::exp(0.2)));
  CHECK(*r.steps[1].temperature == 303.15);
  // The solution that is shown is the one that was given.
  CHECK(r.used.solution.conductivity.value == 5);
}

TEST_CASE("a step's own conductivity holds until told otherwise", "[exact]") {
  solver::Case c = cell();
  const double both = thickness(solver::simulate(c)).mean;
  c.steps.push_back(c.steps[0]);
  c.steps[1].conductivity = solver::Quantity{10, 1};
  const solver::Result r = solver::simulate(c);
  CHECK(thickness(r).mean == Approx(both / 2 * (1 + 2 + 2)));
  // One number, not one for each step that it holds in.
  CHECK(r.parts[0].thickness.mean_band.high ==
        Approx(both / 2 * (1 + 2.2 + 2.2)));
}

// Where potentials are held between rails of a current supply the voltage does
// what the thickness does not.
TEST_CASE("at a set current only the voltage follows the conductivity",
          "[exact]") {
  solver::Case c = cell();
  c.supply = {};
  c.supply.current = solver::Quantity{2, 0};
  c.steps[1].conductivity = solver::Quantity{2.5, 0};
  const solver::Result r = solver::simulate(c);
  CHECK(r.steps[1].cell.voltage == Approx(2 * r.steps[0].cell.voltage));
  CHECK(r.steps[1].mean_current_density ==
        Approx(r.steps[0].mean_current_density));
}

TEST_CASE("the mesh of several steps is made for the least conductivity",
          "[property]") {
  solver::Case c = tests::token();
  c.steps = {{{600, 0}}, {{600, 0}}};
  c.steps[1].conductivity = solver::Quantity{1, 0};
  const solver::Schedule s = solver::run_schedule(c);
  solver::Case low = c;
  low.solution.conductivity.value = 1;
  const auto fine = solver::build_model(low).mesh.nodes.cols();
  REQUIRE(fine > solver::build_model(c).mesh.nodes.cols());
  CHECK(s.steps[0].solved->model.mesh.nodes.cols() >= fine);
  CHECK(s.within());
  CHECK(s.steps[0].solved != s.steps[1].solved);
}
