// A rod anode through the bore of a tube, axisymmetric. Far from the tube's
// ends the current is that of endless cylinders:
//   i = V / (r ln(r/a)/kappa + R + R_anode r/a)   at the bore, radius r
// Source: concentric cylinders, Carslaw and Jaeger, Conduction of Heat in
// Solids, 1959, chapter VII (from memory). What the ends do dies away as
// exp(-mu z); without laws mu = pi/(r - a), with those below 250/m (between
// plates, tan(mu g) = mu (l + m)/(mu^2 l m - 1) with the gap g and the laws'
// lengths l, m): in the middle less than 1e-6, two centimetres from there 5e-5.
#include "bench_cases.hpp"
#include "solved.hpp"

#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <cmath>

using namespace thinspot;
using mesh::Role;

TEST_CASE("bore of a tube with a rod anode inside", "[exact][order][table]") {
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
  const double exact = 1 / (bore * std::log(bore / rod) / kappa + resistance +
                            anode * bore / rod);
  const std::vector<double> heights{-0.02, 0.0, 0.02};
  for (const double z : heights)
    c.probes.push_back({"", {bore, level / 2 + z}});
  const auto meshes = tests::family(c, 3);
  const auto own = tests::figures_of(tests::certified(c));
  const auto& probes = own.probes;
  for (std::size_t k = 0; k < heights.size(); ++k)
    CHECK(std::abs(probes[k].value - exact) <=
          probes[k].bar + (k == 1 ? 1e-6 : 5e-5) * exact);
  // 3 by the law, 2 of the flux at a fixed potential; over a centimetre in the
  // middle.
  const auto order = tests::order_on(
      meshes, resistance > 0 ? 3 : 2, [&](const tests::Solved& s) {
        double sum = 0;
        for (int k = -20; k <= 20; ++k) {
          // The bore is walked downwards.
          const double y = level / 2 + 0.00025 * k, half = 5e-5;
          const double off =
              tests::mean_between(s, {bore, y + half}, {bore, y - half}) -
              exact;
          sum += off * off;
        }
        return std::sqrt(sum);
      });
  tests::record(
      "rod anode in a bore, axisymmetric",
      "Carslaw and Jaeger 1959, ch. VII (from memory)",
      fmt::format("i half way along, {} [A/m2]",
                  resistance > 0 ? "polarization" : "fixed potential"),
      exact, probes[1], order);
}
