// What shape and placing alone would do, against exact fields without
// polarization and against the case solved so on a mesh of its own.
#include "bench_cases.hpp"
#include "solved.hpp"
#include "solver/simulate.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace thinspot;
using mesh::Role;

namespace {

constexpr double pi = std::numbers::pi;

struct Rod {
  double r1, r2, offset;
};

/// A rod beside the axis of a tube, in plan; polarized.
solver::Case rod_in_tube(const Rod& g) {
  const double wall = 0.1 * g.r2, tank = 1.3 * g.r2;
  solver::Case c = tests::plan_box(2 * tank, 0, 5);
  c.section.tank.shape = mesh::Tank::Shape::round;
  c.section.solids = {
      tests::solid(Role::part, "part", "rod", {{"diameter", 2 * g.r1}},
                   {tank + g.offset, tank}),
      tests::solid(
          Role::anode, "tube", "tube",
          {{"diameter", 2 * (g.r2 + wall)}, {"wall", wall}, {"open", 1}},
          {tank, tank})};
  c.cathode.resistance.value = 1e-3;
  tests::add_anode(c, 1, 0);
  c.solution.metal = tests::copper();
  c.accuracy.averaging_length = 1e-3 * g.r1;
  return c;
}

/// Thickness over its mean at an angle from the nearest wall: current density
/// goes as 1/(cosh tau - cos theta), whose mean is 1/sinh tau. Source: Carslaw
/// and Jaeger, 1959, section 16.2, from memory.
double exact_share(const Rod& g, double theta) {
  const double d = g.offset;
  const double c = std::sqrt((std::pow(g.r1 + g.r2, 2) - d * d) *
                             (std::pow(g.r2 - g.r1, 2) - d * d)) /
                   (2 * d);
  const double tau = std::asinh(c / g.r1);
  return std::sinh(tau) / (std::cosh(tau) - std::cos(theta));
}

}  // namespace

TEST_CASE("shape alone, for a rod beside the axis of a tube", "[exact]") {
  const Rod g = GENERATE(Rod{.0121, .05, .02}, Rod{.01, .03, .01});
  const solver::Result r = solver::simulate(rod_in_tube(g));
  REQUIRE(r.appraisal.why);
  const solver::WhyPart& part = r.appraisal.why->parts.at(0);
  double spread = 0;
  constexpr int kAngles = 20000;
  for (int k = 0; k < kAngles; ++k)
    spread +=
        std::abs(exact_share(g, 2 * pi * (k + 0.5) / kAngles) - 1) / kAngles;
  // The mesh is made for the polarized field with 0.1 %; without polarization
  // the current density converges by one order less, so that ten times that is
  // asked for.
  const double off = 10 * r.used.accuracy.tolerance;
  CHECK(part.ideal.least == Approx(exact_share(g, pi)).margin(off));
  CHECK(part.ideal.largest == Approx(exact_share(g, 0)).margin(off));
  CHECK(part.ideal.spread == Approx(spread).margin(off));
  const double mean = r.parts[0].thickness.value.mean;
  const double tank = 1.3 * g.r2;
  for (std::size_t k = 0; k < r.parts[0].surface.size(); ++k) {
    const mesh::Point at =
        r.parts[0].surface[k].at - mesh::Point(tank + g.offset, tank);
    CHECK(part.thickness(static_cast<Eigen::Index>(k)) / mean ==
          Approx(exact_share(g, std::atan2(at.y(), at.x()))).margin(off));
  }
  CHECK(part.actual.spread < part.ideal.spread);
}

TEST_CASE("no polarization relieves nothing, much of it all", "[exact]") {
  solver::Case c = tests::token();
  c.cathode = {};
  const auto none = solver::simulate(c).appraisal.why;
  REQUIRE(none);
  CHECK(none->actual == Approx(none->ideal).epsilon(1e-9));
  CHECK(std::abs(none->relief) < 1e-9);
  const double slope = 1;  // Wagner number 20 * 1 / 0.015
  c.cathode.resistance.value = slope;
  const auto much = solver::simulate(c).appraisal.why;
  // Unevenness falls as one over the Wagner number.
  CHECK(much->actual < 2 * none->ideal / (20 * slope / 0.015));
  CHECK(much->relief > 1 - 2 / (20 * slope / 0.015));
}

TEST_CASE("shape alone, against a mesh made for it", "[reference]") {
  solver::Case c = tests::token();
  if (GENERATE(false, true)) {
    c.steps.push_back(c.steps.front());
    c.steps.back().motion.flip = true;
  }
  const auto why = solver::simulate(c).appraisal.why;
  REQUIRE(why);
  solver::Case bare = c;
  bare.cathode = {};
  const solver::Result own = solver::simulate(bare);
  const double off = 10 * c.accuracy.tolerance;
  const auto& t = own.parts[0].thickness.value;
  CHECK(why->parts[0].ideal.least == Approx(t.min / t.mean).margin(off));
  CHECK(why->ideal == Approx(own.appraisal.why->actual).margin(off));
}

TEST_CASE("what half the current would do is what it does", "[reference]") {
  solver::Case c = tests::token();
  const auto why = solver::simulate(c).appraisal.why;
  REQUIRE(why->half_current);
  REQUIRE(why->twice_conductivity);
  solver::Case half = c;
  half.supply.current->value *= 0.5;
  // Both meshes keep the tolerance at each of two figures.
  const double off = 2 * c.accuracy.tolerance;
  CHECK(*why->half_current ==
        Approx(solver::simulate(half).appraisal.why->actual).margin(off));
  solver::Case twice = c;
  twice.solution.conductivity.value *= 2;
  CHECK(*why->twice_conductivity ==
        Approx(solver::simulate(twice).appraisal.why->actual).margin(off));
  // A slope that follows the current: both halve or double the same number.
  CHECK(*why->half_current == Approx(*why->twice_conductivity).margin(1e-6));
  c.cathode.at.reset();
  CHECK(*solver::simulate(c).appraisal.why->half_current ==
        Approx(solver::simulate(c).appraisal.why->actual).epsilon(1e-6));
  c.supply.current.reset();
  c.supply.voltage = solver::Quantity{1, 0};
  CHECK_FALSE(solver::simulate(c).appraisal.why->half_current);
}

TEST_CASE("shape alone knows of no efficiency by current density", "[exact]") {
  solver::Case c = tests::token();
  const auto plain = solver::simulate(c).appraisal.why;
  c.solution.efficiency_table = {{50, 1}, {600, 0.5}};
  const auto falling = solver::simulate(c).appraisal.why;
  // The sums of currents and those along the true outline differ as far as
  // the mesh's arcs and their quadratics.
  CHECK(falling->ideal == Approx(plain->ideal).epsilon(1e-3));
  CHECK(falling->actual < plain->actual);
}

TEST_CASE("of layers the sum tells why too", "[exact]") {
  solver::Case copper = tests::token(), nickel = tests::token();
  nickel.solution.metal = tests::nickel();
  copper.solution.limiting_current_density = solver::Quantity{400, 0};
  const solver::Result r = solver::simulate({copper, nickel});
  REQUIRE(r.appraisal.why);
  REQUIRE(r.layers.size() == 2);
  // The same set-up twice: as uneven as each.
  const double each = r.layers[0].own.appraisal.why->actual;
  CHECK(r.appraisal.why->actual == Approx(each).margin(1e-3));
  CHECK(r.appraisal.why->parts[0].thickness.size() ==
        static_cast<Eigen::Index>(r.parts[0].surface.size()));
  for (const solver::BurnSpan& s : r.appraisal.burn.spans) CHECK(s.step == 0);
  CHECK_FALSE(r.appraisal.burn.spans.empty());
}
