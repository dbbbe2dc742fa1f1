// Deposits that move the surface they grow on.
//
// A rod in a tube at a given current I per length: what is deposited is an area
// of I k t, whatever else, so that r^2 = r0^2 + I k t/pi (k: volume a charge).
// At a given voltage dr/dt = k i(r), i by the cylinders' resistance (Carslaw
// and Jaeger 1959, ch. VII, from memory), integrated here by the classical
// method of Runge and Kutta. A ball: r^3 = r0^3 + 3 I k t/(4 pi). Between
// plates: a h - h^2/(2 kappa) = k V t with a = L/kappa + R1 + R2, from
// dh/dt = k V/(a - h/kappa). Order in the number of substeps: 2, of the
// trapezoidal rule.
#include "solver/growth.hpp"
#include "bench_cases.hpp"
#include "mesh/errors.hpp"
#include "solved.hpp"
#include "solver/deposit.hpp"
#include "solver/front.hpp"
#include "solver/moving_phase.hpp"
#include "solver/schedule.hpp"
#include "solver/simulate.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <numbers>
#include <string>

using namespace thinspot;
using mesh::Point;
using mesh::Role;

namespace {

constexpr double pi = std::numbers::pi;

struct Cylinders {
  double r1, r2, kappa, cathode, anode;
};

solver::Case rod_in_tube(const Cylinders& x) {
  const double wall = 0.1 * x.r2, outer = x.r2 + wall, tank = 1.2 * outer;
  solver::Case c;
  c.section.cut = mesh::Cut::plan;
  c.section.tank = {mesh::Tank::Shape::round, 2 * tank, 0, 0};
  c.section.solids = {
      tests::solid(Role::part, "part", "rod", {{"diameter", 2 * x.r1}},
                   {tank, tank}),
      tests::solid(Role::anode, "tube", "tube",
                   {{"diameter", 2 * outer}, {"wall", wall}, {"open", 1}},
                   {tank, tank})};
  c.depth = 1;
  c.solution.metal = tests::copper();
  c.solution.conductivity.value = x.kappa;
  c.cathode.resistance.value = x.cathode;
  tests::add_anode(c, 1, x.anode);
  c.growth = true;
  return c;
}

double per_charge() { return solver::growth_per_charge(tests::copper()); }

/// Time in which a layer of this thickness grows on a rod at a current density
/// as drawn [s].
double time_for(double thickness, double r, double density) {
  return (thickness + thickness * thickness / (2 * r)) /
         (per_charge() * density);
}

/// Every figure of the thickness within its own bar, and the bar no wider than
/// the tolerance of mesh and substeps together.
/// @param what  the row of the table of verified figures
void check_even(const solver::Result& result, double exact,
                const std::string& what, const char* source) {
  const solver::BandedSpread& t = result.parts.front().thickness;
  tests::record("thick deposit, its surface moves", source,
                "thickness, " + what + " [um]", 1e6 * exact,
                {1e6 * t.value.mean, 1e6 * t.mesh_error.mean});
  CAPTURE(exact, t.value.min, t.value.mean, t.value.max, t.mesh_error.mean);
  CHECK(std::abs(t.value.min - exact) <= t.mesh_error.min);
  CHECK(std::abs(t.value.mean - exact) <= t.mesh_error.mean);
  CHECK(std::abs(t.value.max - exact) <= t.mesh_error.max);
  const double most = 2 * result.used.accuracy.tolerance * exact;
  CHECK(t.mesh_error.max <= most);
}

/// Thickness after a number of substeps, mean over the first part's rows.
std::vector<double> by_substeps(const solver::Case& c,
                                const std::vector<int>& numbers) {
  const solver::Certified drawn = solver::certify(solver::build_model(c), c);
  const double growth = solver::growth_per_density(c);
  const solver::MovingPhase phase(
      drawn, c, growth, growth * drawn.outcome.parts.front().largest.value);
  std::vector<double> all;
  for (int n : numbers) {
    const solver::Moved moved = phase.run(n);
    REQUIRE(moved.whole);
    all.push_back(moved.parts.front().added.mean());
  }
  return all;
}

/// Area of the mesh [m2].
double area_of(const mesh::Mesh& mesh) {
  double area = 0;
  for (const mesh::BoundaryEdge& e : mesh.boundary) {
    // Of x dy along a quadratic: Simpson's rule is exact for degree 3.
    const Point a = mesh.nodes.col(e.nodes[0]), b = mesh.nodes.col(e.nodes[1]),
                m = mesh.nodes.col(e.nodes[2]);
    area +=
        (a.x() * (4 * m.y() - 3 * a.y() - b.y()) + 4 * m.x() * (b.y() - a.y()) +
         b.x() * (a.y() + 3 * b.y() - 4 * m.y())) /
        6;
  }
  return area;
}

}  // namespace

TEST_CASE("growth: a rod at a given current", "[exact][table]") {
  const auto x = GENERATE(Cylinders{.004, .03, 5, 1e-3, 2e-4},
                          Cylinders{.004, .03, 5, 0, 0});
  CAPTURE(x.cathode);
  solver::Case c = rod_in_tube(x);
  const double density = 200, exact = 0.3 * x.r1;
  c.supply.current = solver::Quantity{2 * pi * x.r1 * density, 0};
  c.steps = {{{time_for(exact, x.r1, density), 0}}};
  const solver::Result result = solver::simulate(c);
  check_even(result, exact,
             x.cathode > 0 ? "rod at a given current"
                           : "rod at a given current, fixed potential",
             "volume by Faraday's law");
  REQUIRE(result.growth);
  CHECK(result.growth->area_grown / result.growth->area_drawn ==
        Approx(1.3).epsilon(1e-3));
  // Metal by the current, not by the area as drawn.
  const double mass = solver::mass_per_charge(tests::copper()) *
                      result.cell.current * c.steps.front().duration.value;
  CHECK(result.parts.front().mass == Approx(mass).epsilon(1e-9));
}

TEST_CASE("growth: a rod at a given voltage", "[exact][order][table]") {
  const auto x = GENERATE(Cylinders{.004, .03, 5, 1e-3, 2e-4},
                          Cylinders{.004, .03, 5, 0, 0});
  CAPTURE(x.cathode);
  solver::Case c = rod_in_tube(x);
  const double voltage = 1;
  c.supply.voltage = solver::Quantity{voltage, 0};
  const auto speed = [&](double r) {
    return per_charge() * voltage /
           (r * std::log(x.r2 / r) / x.kappa + x.cathode + x.anode * r / x.r2);
  };
  const double time = 0.3 * x.r1 / speed(x.r1);
  c.steps = {{{time, 0}}};
  double r = x.r1;
  const int steps = 2000;
  for (int k = 0; k < steps; ++k) {
    const double h = time / steps, a = speed(r), b = speed(r + h / 2 * a),
                 d = speed(r + h / 2 * b), e = speed(r + h * d);
    r += h / 6 * (a + 2 * b + 2 * d + e);
  }
  check_even(solver::simulate(c), r - x.r1,
             x.cathode > 0 ? "rod at a given voltage"
                           : "rod at a given voltage, fixed potential",
             "rate equation, integrated");

  const std::vector<double> h = by_substeps(c, {1, 2, 4});
  CHECK(std::log2((h[0] - h[1]) / (h[1] - h[2])) == Approx(2).margin(0.2));
}

TEST_CASE("growth: a ball at a given current", "[exact][table]") {
  const double r1 = 0.01, r2 = 0.03, wall = 0.004, tank = 2.4 * (r2 + wall);
  solver::Case c = tests::plan_box(tank, tank, 5);
  c.section.cut = mesh::Cut::axisymmetric;
  c.section.tank.level = tank;
  c.depth.reset();
  const auto circle = [](double radius, double way) -> mesh::Loop {
    const Point a(way * radius, 0), b(-way * radius, 0);
    return {{a, b, way, "outline"}, {b, a, way, "outline"}};
  };
  const mesh::Outline ball{{circle(r1, 1)}},
      shell{{circle(r2 + wall, 1), circle(r2, -1)}};
  c.section.solids = {tests::drawn(Role::part, "ball", ball),
                      tests::drawn(Role::anode, "shell", shell)};
  for (mesh::Solid& s : c.section.solids) s.at = {0, tank / 2};
  c.cathode.resistance.value = 1e-3;
  tests::add_anode(c, 1, 0);
  c.supply.voltage.reset();
  const double density = 200, exact = 0.2 * r1;
  c.supply.current = solver::Quantity{4 * pi * r1 * r1 * density, 0};
  c.steps = {{{(std::pow(r1 + exact, 3) - std::pow(r1, 3)) /
                   (3 * r1 * r1 * density * per_charge()),
               0}}};
  c.growth = true;
  check_even(solver::simulate(c), exact, "ball at a given current",
             "volume by Faraday's law");
}

TEST_CASE("growth: between plates", "[exact][order][table]") {
  const double gap = 0.02, kappa = 5, cathode = 4e-4, anode = 2e-4;
  solver::Case c = tests::channel(gap, 0.03, kappa, cathode, anode, 1);
  const double whole = gap / kappa + cathode + anode;
  const double exact = 0.3 * gap;
  const double time =
      (whole * exact - exact * exact / (2 * kappa)) / (per_charge() * 1.0);
  c.steps = {{{time, 0}}};
  c.growth = true;
  check_even(solver::simulate(c), exact, "plate at a given voltage",
             "rate equation");
  // The field is linear, so that what is left is the substeps' alone.
  const std::vector<double> h = by_substeps(c, {2, 4, 8});
  CHECK(std::log2((h[0] - exact) / (h[1] - exact)) == Approx(2).margin(0.1));
  CHECK(std::log2((h[1] - exact) / (h[2] - exact)) == Approx(2).margin(0.1));
}

TEST_CASE("growth: what the liquid loses is what the current brings") {
  solver::Case c = tests::token();
  c.growth = true;
  c.steps = {{{6 * 3600, 0}}};  // about half of the edge's radius
  const solver::Certified drawn = solver::certify(solver::build_model(c), c);
  const double growth = solver::growth_per_density(c);
  const solver::MovingPhase phase(drawn, c, growth, 2.5e-4);
  const solver::Moved moved = phase.run(4);
  REQUIRE(moved.whole);
  const double lost = area_of(drawn.model.mesh) - area_of(moved.mesh);
  const double brought =
      growth * moved.parts.front().current / drawn.model.scale.depth;
  CHECK(lost == Approx(brought).epsilon(c.accuracy.tolerance));
}

// The outline that it has grown to, drawn as arcs through its nodes and meshed
// anew, conducts as the mesh that has moved there.
TEST_CASE("growth: a moved mesh is as good as a new one") {
  solver::Case c = tests::token();
  c.cathode.at.reset();
  c.supply.current.reset();
  c.supply.voltage = solver::Quantity{0.5, 0};
  c.steps = {{{6 * 3600, 0}}};
  const solver::Certified drawn = solver::certify(solver::build_model(c), c);
  c.depth = drawn.model.scale.depth;
  const solver::MovingPhase phase(drawn, c, solver::growth_per_density(c),
                                  2.5e-4);
  const solver::Moved moved = phase.run(4);
  REQUIRE(moved.whole);
  const solver::Outcome there = solver::evaluate(
      solver::build_model(c, drawn.model.section, moved.mesh), c);

  const solver::Surface& surface = drawn.model.surfaces.front();
  mesh::Outline grown{{{}}};
  for (const solver::SurfaceEdge& e : surface.loops.front().edges) {
    std::array<Point, 3> p;
    for (std::size_t k = 0; k < 3; ++k)
      p[k] = moved.mesh.nodes.col(solver::mesh_node(
          drawn.model.response.electrodes(), surface, e.node[k]));
    const Point along = p[1] - p[0], half = p[2] - 0.5 * (p[0] + p[1]);
    // Height of the arc over half its chord, to the right of travel.
    const double height =
        (along.y() * half.x() - along.x() * half.y()) / along.norm();
    grown.loops[0].push_back(
        {p[0], p[1], 2 * height / along.norm(), "outline"});
  }
  CHECK(mesh::area(grown) > 1.1 * 0.03 * 0.0024);
  solver::Case anew = c;
  anew.section.solids[0] = tests::drawn(Role::part, "part", grown);
  const tests::Solved fresh = tests::certified(anew);
  // Two meshes, each within the tolerance.
  const double twice = 2 * c.accuracy.tolerance;
  CHECK(there.point.total_current ==
        Approx(fresh.outcome.point.total_current).epsilon(twice));
  const solver::Spread &a = there.parts[0].current_density_spread,
                       &b = fresh.outcome.parts[0].current_density_spread;
  CHECK(std::abs(a.min - b.min) < twice * b.mean);
  CHECK(std::abs(a.max - b.max) < twice * b.mean);
  // And not by having stayed where it was.
  CHECK(std::abs(drawn.outcome.point.total_current /
                     fresh.outcome.point.total_current -
                 1) > 2 * twice);
}

// (sqrt(1 + 2 x) - 1)/x = 1 - x/2 + ..., x = thickness over radius.
TEST_CASE("growth: of no matter for thin deposits, to first order") {
  const Cylinders x{.004, .03, 5, 1e-3, 2e-4};
  solver::Case c = rod_in_tube(x);
  c.supply.current = solver::Quantity{2 * pi * x.r1 * 200, 0};
  std::vector<double> off;
  for (double part : {0.08, 0.04, 0.02}) {
    c.steps = {{{part * x.r1 / (per_charge() * 200), 0}}};
    const double grown = by_substeps(c, {4}).front();
    off.push_back(1 - grown / (part * x.r1));
    CHECK(off.back() == Approx(part / 2).epsilon(2 * part));
  }
  CHECK(std::log2(off[0] / off[1]) == Approx(1).margin(0.1));
  CHECK(std::log2(off[1] / off[2]) == Approx(1).margin(0.1));
}

// The rod is as it was when it has turned about its axis, but its mesh is not.
TEST_CASE("growth: a part takes its deposit along to the next step") {
  const Cylinders x{.004, .03, 5, 1e-3, 2e-4};
  solver::Case c = rod_in_tube(x);
  const double density = 200, exact = 0.3 * x.r1;
  c.supply.current = solver::Quantity{2 * pi * x.r1 * density, 0};
  const double time = time_for(exact, x.r1, density);
  const bool flip = GENERATE(false, true);
  solver::Step first{{0.4 * time, 0}}, second{{0.6 * time, 0}};
  second.motion.turn = 0.5;
  second.motion.flip = flip;
  c.steps = {first, second};
  const solver::Result result = solver::simulate(c);
  REQUIRE(result.growth);
  CHECK(result.growth->substeps.size() == 2);
  const solver::BandedSpread& t = result.parts.front().thickness;
  CHECK(std::abs(t.value.mean - exact) <= t.mesh_error.mean);
  CHECK(std::abs(t.value.min - exact) <= t.mesh_error.min);
  CHECK(std::abs(t.value.max - exact) <= t.mesh_error.max);
}

TEST_CASE("growth: refused where the deposit meets itself or the anode") {
  solver::Case c = tests::channel(0.02, 0.03, 5, 4e-4, 2e-4, 1);
  c.growth = true;
  c.supply.voltage.reset();
  c.supply.current = solver::Quantity{200 * 0.03, 0};
  c.steps = {{{60 * 86400, 0}}};  // 38 mm into a gap of 20 mm
  try {
    solver::simulate(c);
    FAIL("was not refused");
  } catch (const NoResultError& error) {
    const std::string what = error.what();
    CAPTURE(what);
    CHECK(what.find("growth") != std::string::npos);
    CHECK(what.find("growth = false") != std::string::npos);
  }
}
