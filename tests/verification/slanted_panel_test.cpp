// A trapezoidal cell: an anode at the upright wall, the cathode the whole
// slanted wall, primary and with polarization.
// Source of the primary distribution: the conformal map of West, Matlosz and
// Landolt, J. Appl. Electrochem. 22 (1992) 301, evaluated anew by its
// Schwarz-Christoffel integral; with polarization: an integral equation over
// the same map, values converged to 1e-9. Distances along the panel from its
// near end, Wagner number by the panel's length.
#include "bench_cases.hpp"
#include "solved.hpp"

#include <catch2/catch.hpp>

using namespace thinspot;
using mesh::Point;
using mesh::Role;

namespace {

constexpr double height = 0.0635, near_end = 0.047625, far_end = 0.127;
constexpr double sheet = 0.004, kappa = 5;

solver::Case cell(double wagner) {
  solver::Case c = tests::plan_box(0, 0, kappa);
  const double x0 = sheet + near_end, x1 = sheet + far_end;
  const std::vector<Point> inside{
      {0, 0}, {x0 + sheet, 0}, {x1 + sheet, height}, {0, height}};
  mesh::Loop wall;
  for (std::size_t k = 0; k < 4; ++k)
    wall.push_back({inside[k], inside[(k + 1) % 4], 0, ""});
  c.section.tank.shape = mesh::Tank::Shape::outline;
  c.section.tank.drawn = {{wall}};
  c.section.solids = {
      tests::drawn(
          Role::part, "panel",
          std::vector<Point>{
              {x0, 0}, {x0 + sheet, 0}, {x1 + sheet, height}, {x1, height}}),
      tests::solid(Role::anode, "sheet", "plate",
                   {{"width", sheet}, {"height", height}},
                   {sheet / 2, height / 2})};
  const double panel = std::hypot(far_end - near_end, height);
  c.cathode.resistance.value = wagner * panel / kappa;
  tests::add_anode(c, 1, 0);
  return c;
}

struct Row {
  double wagner, resistance;  ///< conductivity times resistance times depth
  double at[9];               ///< over the mean, at 0.1 to 0.9 of the panel
};

}  // namespace

TEST_CASE("slanted panel in a trapezoidal cell", "[exact]") {
  const Row row = GENERATE(
      Row{0,
          1.056317234556,
          {2.134599942, 1.528466903, 1.183940426, 0.927744349, 0.714118673,
           0.526176135, 0.357806614, 0.208608158, 0.083077548}},
      Row{0.1,
          1.228542460036,
          {2.063091134, 1.597880011, 1.287749754, 1.046123601, 0.841365505,
           0.659410597, 0.493859733, 0.342465141, 0.205728789}},
      Row{1,
          2.284874672217,
          {1.360005255, 1.254872966, 1.159481110, 1.070119026, 0.984858378,
           0.902551705, 0.822498408, 0.744295295, 0.667751580}});
  CAPTURE(row.wagner);
  solver::Case c = cell(row.wagner);
  if (row.wagner == 0) c.accuracy.tolerance = 1e-4;
  const auto s = tests::solved(c);
  const double tolerance = c.accuracy.tolerance;
  const double current = tests::current_of(s, 0);
  CHECK(kappa / current == Approx(row.resistance).epsilon(tolerance));
  const double mean = s.outcome.parts[0].current_density_spread.mean;
  const Point low(sheet + near_end, 0), high(sheet + far_end, height);
  for (int k = 1; k <= 9; ++k) {
    CAPTURE(k);
    // An average over a hundredth of the panel; the curvature of x^-0.363, the
    // law at the near end, makes it differ by 2e-4 at a tenth, less elsewhere.
    const auto at = [&](double share) -> Point {
      return low + share * (high - low);
    };
    // The panel's bare side is walked from its far end.
    const double found =
        tests::mean_between(s, at(0.1 * k + 0.005), at(0.1 * k - 0.005));
    // Without polarization currents are linear on an edge, and edges grow by
    // no more than 0.35 of the way from the near end: of x^-0.363 that misses
    // 0.363 1.363 0.35^2 / 12 at most.
    const double edge = row.wagner == 0 ? 5e-3 : 0;
    const double margin = tolerance + 5e-4 + edge * row.at[k - 1];
    CHECK(found / mean == Approx(row.at[k - 1]).margin(margin));
  }
}
