// Disc electrode of radius a flush in an insulating plane, fixed potential:
//   R = 1/(4 kappa a), i/mean = 1/2 / sqrt(1 - (r/a)^2)
// Source: Newman, J. Electrochem. Soc. 113 (1966) 501 (from memory).
// The counter electrode is a hemisphere at b = 50 a. The disc's far potential
// is that of a point but for terms of order (a/b)^3 = 8e-6, so
//   R = 1/(4 kappa a) - 1/(2 pi kappa b) within 1e-5.
#include "bench_cases.hpp"
#include "mesh/generate.hpp"
#include "solver/profile.hpp"
#include "solver/response.hpp"
#include "solver/surface.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace thinspot;

namespace {

constexpr double pi = std::numbers::pi;
constexpr double a = 0.01, b = 0.5, thick = 0.02;

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

TEST_CASE("disc in an insulating plane, fixed potential", "[exact]") {
  const double kappa = 4;
  const mesh::Section section = bowl();
  mesh::Grading grading;
  grading.tolerance = 1e-4;
  const mesh::Mesh mesh = mesh::generate(section, grading);
  const solver::Response response(mesh, section);
  REQUIRE(response.count() == 2);
  const auto answers = response.answer(kappa, {0, 0});
  const double resistance = 1 / answers.current(0, 1);
  const double exact = 1 / (4 * kappa * a) - 1 / (2 * pi * kappa * b);
  CHECK(resistance == Approx(exact).epsilon(grading.tolerance + 1e-5));

  // Away from the edge, where the current density itself has a bound.
  Eigen::VectorXd drive(2);
  drive << 0, 1;
  const auto density = response.current_density(0, answers, drive, kappa, 0);
  const auto surface = solver::unroll(mesh, section, response.electrodes(), 0);
  const auto& loop = surface.loops.at(0);
  const solver::Profile profile(loop, density);
  const double mean = answers.current(0, 1) / (pi * a * a);
  for (double r : {0.1, 0.5, 0.75, 0.9}) {
    CAPTURE(r);
    const double arc =
        solver::arc_of(loop, section.solids[0].outline, 2, 1 - r);
    const double half_width = 0.02 * a;
    // Compared as averages over a short stretch, by the exact antiderivative.
    const auto antiderivative = [](double x) { return std::asin(x) / 2; };
    const double expected =
        (antiderivative(r + 0.02) - antiderivative(r - 0.02)) / 0.04;
    const double found = profile.integral(arc - half_width, arc + half_width) /
                         (2 * half_width) / mean;
    // Recovered from reactions: an order less than the total; 1 % asked.
    CHECK(found == Approx(expected).epsilon(1e-2));
  }
}
