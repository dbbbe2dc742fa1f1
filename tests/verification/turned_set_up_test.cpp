// A set-up that is turned as a whole in a round tank stays what it is. Gmsh
// makes another mesh of it, so figures agree within the bars of both; on the
// same mesh, turned, they agree but for rounding.
#include "bench_cases.hpp"
#include "solved.hpp"

#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <Eigen/Geometry>

#include <cmath>
#include <numbers>

using namespace thinspot;
using mesh::Point;
using mesh::Role;

namespace {

constexpr double radius = 0.06;
const Point middle(radius, radius);

/// Seen from above, nothing in it symmetric.
solver::Case set_up(double resistance) {
  solver::Case c = tests::plan_box(2 * radius, 0, 8);
  c.section.tank.shape = mesh::Tank::Shape::round;
  c.section.solids = {
      tests::bracket(0.004, {0.05, 0.065}),
      tests::solid(Role::anode, "sheet", "plate",
                   {{"width", 0.002}, {"height", 0.03}}, {0.1, 0.05}),
      tests::solid(Role::anode, "bar", "rod", {{"diameter", 0.006}},
                   {0.03, 0.03}),
      tests::solid(Role::shield, "plastic", "plate",
                   {{"width", 0.002}, {"height", 0.02}}, {0.085, 0.07})};
  c.cathode.resistance.value = resistance;
  tests::add_anode(c, 1, 1e-4);
  tests::add_anode(c, 2, 0);
  c.probes = {{"", {0.039, 0.064}}, {"", {0.05, 0.055}}};
  return c;
}

Point turned(const Point& p, double angle) {
  return middle + Eigen::Rotation2Dd(angle) * (p - middle);
}

solver::Case turned(solver::Case c, double angle) {
  for (mesh::Solid& s : c.section.solids) {
    s.at = turned(s.at, angle);
    s.turn += angle;
  }
  for (solver::Probe& p : c.probes) p.at = turned(p.at, angle);
  return c;
}

mesh::Outline turned(const mesh::Outline& outline, double angle) {
  return mesh::moved(mesh::moved(outline, 0, -middle), angle, middle);
}

}  // namespace

TEST_CASE("a set-up turned as a whole", "[property][table]") {
  const bool law = GENERATE(false, true);
  const double angle = 37 * std::numbers::pi / 180;
  const solver::Case c = set_up(law ? 2e-4 : 0);
  const auto here = tests::figures_of(tests::certified(c));
  const auto there = tests::figures_of(tests::certified(turned(c, angle)));
  const auto compare = [&](const char* what, const tests::Figure& before,
                           tests::Figure after) {
    after.bar += before.bar;
    tests::record(
        "turned as a whole by 37 degrees", "rotational symmetry",
        fmt::format("{}, {}", what, law ? "polarization" : "fixed potential"),
        before.value, after);
  };
  compare("current [A]", here.current, there.current);
  compare("i inside the bracket [A/m2]", here.probes[0], there.probes[0]);
  compare("i outside the bracket [A/m2]", here.probes[1], there.probes[1]);
  CHECK(here.probes[1].value > 1.2 * here.probes[0].value);
}

TEST_CASE("a turned mesh gives the same currents", "[property]") {
  const double angle = GENERATE(0.5, 2.0, -1.0);
  CAPTURE(angle);
  const solver::Case c = set_up(2e-4);
  const auto here = tests::solved(c);
  mesh::Section section = here.model.section;
  mesh::Mesh mesh = here.model.mesh;
  section.liquid_bounds = turned(section.liquid_bounds, angle);
  for (mesh::PlacedSolid& s : section.solids)
    s.outline = turned(s.outline, angle);
  for (Eigen::Index k = 0; k < mesh.nodes.cols(); ++k)
    mesh.nodes.col(k) = turned(Point(mesh.nodes.col(k)), angle);
  const auto model = solver::build_model(c, section, mesh);
  const auto there = solver::evaluate(model, turned(c, angle));
  // Rounding of the turned places, 1e-16, times the condition of the smallest
  // triangles, 1e5, and of the system.
  const auto& p = here.outcome.parts[0].current_density;
  const auto& q = there.parts[0].current_density;
  CHECK((p - q).norm() < 1e-8 * p.norm());
  CHECK((here.outcome.point.current - there.point.current).norm() <
        1e-8 * there.point.current.norm());
}
