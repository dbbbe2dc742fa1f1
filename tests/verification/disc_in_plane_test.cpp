// Disc electrode of radius a flush in an insulating plane, fixed potential:
//   R = 1/(4 kappa a), i/mean = 1/2 / sqrt(1 - (r/a)^2)
// Source: Newman, J. Electrochem. Soc. 113 (1966) 501 (from memory).
// The counter electrode is a hemisphere at b = 50 a. The disc's far potential
// is that of a point but for terms of order (a/b)^3 = 8e-6, so
//   R = 1/(4 kappa a) - 1/(2 pi kappa b) within 1e-5.
// With linear kinetics R and i/mean solve an integral equation, kernel
// (2/pi) r' K/(r + r'), digits that two numbers of nodes share; the far field
// is a point's again. Orders: the edge in the plane is a corner of 180 degrees
// between metal and insulator, 2 lambda = 1; with a law r ln r, 2.
#include "bench_cases.hpp"
#include "mesh/generate.hpp"
#include "solved.hpp"
#include "solver/certify.hpp"

#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <cmath>
#include <numbers>

using namespace thinspot;

namespace {

constexpr double pi = std::numbers::pi;
constexpr double a = 0.01, b = 0.5, thick = 0.02, kappa = 4;
const std::vector<double> radii{0.002, 0.9};  // over a

/// Drawn by hand: a quarter of a bowl, a coin and a ring shield flush below it,
/// the bowl itself as anode.
mesh::Section bowl() {
  mesh::Section s;
  s.cut = mesh::Cut::axisymmetric;
  const double far = 1.2 * b;
  s.liquid_bounds = {{{{{0, -thick}, {far, -thick}, 0, "wall"},
                       {{far, -thick}, {far, far}, 0, "wall"},
                       {{far, far}, {0, far}, 0, "surface"},
                       {{0, far}, {0, -thick}, 0, "axis"}}}};
  mesh::PlacedSolid disc, plane, counter;
  disc.spec = tests::solid(mesh::Role::part, "part", "coin", {}, {0, 0});
  disc.outline = {{{{{0, -thick}, {a, -thick}, 0, "rim"},
                    {{a, -thick}, {a, 0}, 0, "rim"},
                    {{a, 0}, {0, 0}, 0, "face"},
                    {{0, 0}, {0, -thick}, 0, "rim"}}}};
  plane.spec = tests::solid(mesh::Role::shield, "plane", "plate", {}, {0, 0});
  plane.outline = {{{{{a, -thick}, {far, -thick}, 0, "wall"},
                     {{far, -thick}, {far, 0}, 0, "wall"},
                     {{far, 0}, {a, 0}, 0, "wall"},
                     {{a, 0}, {a, -thick}, 0, "wall"}}}};
  counter.spec = tests::solid(mesh::Role::anode, "bowl", "tube", {}, {0, 0});
  counter.outline = {{{{{b, 0}, {far, 0}, 0, "out"},
                       {{far, 0}, {far, far}, 0, "out"},
                       {{far, far}, {0, far}, 0, "out"},
                       {{0, far}, {0, b}, 0, "out"},
                       {{0, b}, {b, 0}, -std::tan(pi / 8), "in"}}}};
  s.solids = {disc, plane, counter};
  return s;
}

}  // namespace

namespace {

/// The disc at zero volt, the bowl at one.
tests::Solved disc_in_plane(double resistance, const mesh::Section& section,
                            mesh::Mesh mesh) {
  solver::Case c;
  for (const mesh::PlacedSolid& s : section.solids)
    c.section.solids.push_back(s.spec);
  c.section.cut = section.cut;
  c.solution.metal = tests::copper();
  c.solution.conductivity.value = kappa;
  c.cathode.resistance.value = resistance;
  tests::add_anode(c, 2, 0);
  c.supply.voltage = solver::Quantity{1, 0};
  c.steps = {{{3600, 0}}};
  c.accuracy = {1e-4, 2e-3 * a};
  for (const double r : radii) c.probes.push_back({"", {r * a, 0}});
  solver::Model model = solver::build_model(c, section, std::move(mesh));
  solver::Outcome outcome = solver::evaluate(model, c);
  return {c, std::move(model), std::move(outcome)};
}

std::vector<tests::Solved> discs(double resistance, double tolerance,
                                 double averaging_length, int times) {
  const mesh::Section section = bowl();
  mesh::Grading grading;
  grading.tolerance = tolerance;
  grading.averaging_length = averaging_length;
  grading.polarization_length = {kappa * resistance, 0, 0};
  std::vector<tests::Solved> family{
      disc_in_plane(resistance, section, mesh::generate(section, grading))};
  for (int k = 0; k < times; ++k)
    family.push_back(tests::refined(family.back()));
  return family;
}

/// To the disc, counted from the bowl [A].
double exact_current(double kappa_a_resistance) {
  return 1 / (kappa_a_resistance / (kappa * a) - 1 / (2 * pi * kappa * b));
}

/// @param order  of the current on meshes that begin coarse at the edge
void record_disc(const char* name, const char* source, const std::string& which,
                 double resistance, double kappa_a_resistance, double order,
                 const std::vector<double>& exact) {
  const double current = exact_current(kappa_a_resistance);
  tests::Solved first = discs(resistance, 1e-4, 2e-3 * a, 0).front();
  solver::Certified done = solver::certify(std::move(first.model), first.used);
  auto own = tests::figures_of(
      {first.used, std::move(done.model), std::move(done.outcome)});
  own.current.bar += 1e-5 * current;  // the bowl's distance
  const auto off = [&](const tests::Solved& s) {
    return tests::total_current(s) - current;
  };
  tests::record(name, source, fmt::format("current{} [A]", which), current,
                own.current,
                tests::order_on(discs(resistance, 0.05, a, 3), order, off));
  for (std::size_t k = 0; k < radii.size(); ++k) {
    tests::Figure found = own.shares[k];
    // The bowl again, and at the inner place what the digits, of the very
    // middle, are off: 0.34 times its square.
    found.bar += 1e-5 + 1.4e-6;
    tests::record(name, source,
                  fmt::format("i/mean {}{}",
                              k == 0 ? "in the middle" : "at r = 0.9 a", which),
                  exact[k], found);
  }
}

}  // namespace

TEST_CASE("disc in an insulating plane, fixed potential",
          "[exact][order][table]") {
  std::vector<double> exact;
  for (const double r : radii) exact.push_back(0.5 / std::sqrt(1 - r * r));
  record_disc("disc in a plane, fixed potential",
              "Newman, J. Electrochem. Soc. 113 (1966) 501 (from memory)", "",
              0, 0.25, 1, exact);
}

TEST_CASE("disc in an insulating plane, with a law", "[exact][order][table]") {
  struct Disc {
    double wagner;      ///< kappa R over a
    double resistance;  ///< times kappa a
    double at[2];
  };
  const Disc row =
      GENERATE(Disc{1, 0.585919593821, {0.8825872825, 1.0840567985}},
               Disc{0.1, 0.291147206110, {0.6224529376, 1.2932113947}});
  record_disc(
      "disc in a plane, with a law", "integral equation with elliptic kernel",
      fmt::format(", kappa R = {:g} a", row.wagner), row.wagner * a / kappa,
      row.resistance, 2, {row.at[0], row.at[1]});
}
