// A rod anode through the bore of a tube, axisymmetric. Far from the tube's
// ends the current is that of endless cylinders:
//   i = V / (r ln(r/a)/kappa + R + R_anode r/a)   at the bore, radius r
// Source: concentric cylinders, Carslaw and Jaeger, Conduction of Heat in
// Solids, 1959, chapter VII (from memory). What the ends do dies away as
// exp(-pi z/(r - a)) or faster; ten gaps in, that is 1e-13.
#include "bench_cases.hpp"
#include "solved.hpp"

#include <catch2/catch.hpp>

using namespace thinspot;
using mesh::Role;

TEST_CASE("bore of a tube with a rod anode inside", "[exact]") {
  const double resistance = GENERATE(0.0, 1e-3);
  CAPTURE(resistance);
  const double rod = 0.003, bore = 0.009, wall = 0.002, kappa = 10;
  const double length = 0.12, level = 0.2, anode = 2e-4;
  solver::Case c;
  c.section.cut = mesh::Cut::axisymmetric;
  c.section.tank = {mesh::Tank::Shape::box, 0.12, level, level, {}};
  c.section.solids = {
      tests::solid(Role::part, "part", "tube",
                   {{"diameter", 2 * (bore + wall)},
                    {"wall", wall},
                    {"length", length},
                    {"open", 1}},
                   {0, level / 2}),
      tests::solid(Role::anode, "rod", "rod",
                   {{"diameter", 2 * rod}, {"length", level}}, {0, level / 2})};
  c.solution.metal = tests::copper();
  c.solution.conductivity.value = kappa;
  c.cathode.resistance.value = resistance;
  tests::add_anode(c, 1, anode);
  c.supply.voltage = solver::Quantity{1, 0};
  c.steps = {{{3600, 0}}};
  const auto s = tests::solved(c);
  const double exact = 1 / (bore * std::log(bore / rod) / kappa + resistance +
                            anode * bore / rod);
  const double mean = s.outcome.parts[0].current_density_spread.mean;
  // The bore is walked downwards.
  for (const double z : {-0.02, 0.0, 0.02}) {
    CAPTURE(z);
    const double found = tests::mean_between(s, {bore, level / 2 + z + 0.005},
                                             {bore, level / 2 + z - 0.005});
    CHECK(found == Approx(exact).margin(c.accuracy.tolerance * mean));
  }
}
