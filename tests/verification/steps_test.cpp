// Several steps: what they leave together.
#include "bench_cases.hpp"
#include "solved.hpp"
#include "solver/schedule.hpp"
#include "solver/simulate.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace thinspot;

namespace {

solver::Step step(double minutes, mesh::Motion motion = {}) {
  solver::Step s;
  s.duration.value = 60 * minutes;
  s.motion = motion;
  return s;
}

double least(const solver::Result& r) { return r.parts[0].thickness.value.min; }

/// Thickness at the end of a ray from the part's centre, all steps [m].
double thickness_at(const solver::Result& r, const mesh::Point& at) {
  double nearest = 1e9, value = 0;
  for (const solver::SurfacePoint& p : r.parts[0].surface)
    if ((p.at - at).norm() < nearest) {
      nearest = (p.at - at).norm();
      value = p.thickness;
    }
  return value;
}

}  // namespace

TEST_CASE("one step in two pieces is one step", "[property]") {
  solver::Case c = tests::token();
  c.steps = {step(40)};
  const solver::Result one = solver::simulate(c);
  c.steps = {step(15), step(25)};
  const solver::Result two = solver::simulate(c);
  // The same field: rounding alone.
  CHECK(least(two) == Approx(least(one)).epsilon(1e-12));
  CHECK(two.parts[0].mass == Approx(one.parts[0].mass).epsilon(1e-12));
  CHECK(two.parts[0].surface.size() == one.parts[0].surface.size());
  CHECK(two.steps[0].parts[0].thickness.mean ==
        Approx(one.parts[0].thickness.value.mean * 15 / 40).epsilon(1e-12));
  CHECK(two.parts[0].thickness.min_band.low ==
        Approx(one.parts[0].thickness.min_band.low).epsilon(1e-6));
}

// A token before one sheet, flipped half way: what its left gets in one half
// its right gets in the other, so that the whole is the mirrored sum of the
// halves.
TEST_CASE("a symmetric part flipped half way is the mirrored sum",
          "[property]") {
  solver::Case c = tests::token();
  c.steps = {step(40)};
  const auto still = solver::run_schedule(c);
  c.steps = {step(20), step(20, {true, 0})};
  const solver::Result turned = solver::simulate(c);
  const solver::CoatSpread& s = still.spreads[0];
  CHECK(turned.parts[0].thickness.value.mean ==
        Approx(s.thickness.mean).epsilon(1e-6));
  const solver::Result one = [&] {
    solver::Case d = tests::token();
    d.steps = {step(40)};
    return solver::simulate(d);
  }();
  const double tolerance = c.accuracy.tolerance * s.thickness.mean;
  for (double y : {0.04, 0.047, 0.05, 0.06}) {
    const mesh::Point left(0.045 - 0.0012, y), right(0.045 + 0.0012, y);
    const double both =
        0.5 * (thickness_at(one, left) + thickness_at(one, right));
    CAPTURE(y);
    // Points of two meshes lie up to 1.5 mm apart, over which the coat changes
    // by less than two hundredths on the flat.
    for (const mesh::Point& p : {left, right})
      CHECK(std::abs(thickness_at(turned, p) - both) <
            2 * tolerance + 0.02 * both);
  }
  CHECK(least(turned) > 1.3 * s.thickness.min);
}

namespace {

/// A rod off the middle of a box, before one sheet.
solver::Case rod_before_a_sheet() {
  solver::Case c = tests::plan_box(0.08, 0.06, 10);
  c.section.solids = {
      tests::solid(mesh::Role::part, "rod", "rod", {{"diameter", 0.02}},
                   {0.045, 0.025}),
      tests::solid(mesh::Role::anode, "sheet", "plate",
                   {{"width", 0.002}, {"height", 0.05}}, {0.005, 0.03})};
  tests::add_anode(c, 1, 0);
  c.cathode.resistance.value = 3e-4;
  c.steps = {step(40)};
  return c;
}

double unevenness(const solver::Result& r) {
  const solver::Spread& t = r.parts[0].thickness.value;
  return (t.max - t.min) / t.mean;
}

}  // namespace

TEST_CASE("positions of a turn are steps of their own", "[property]") {
  solver::Case c = rod_before_a_sheet();
  c.steps[0].turning = solver::Turning{4, 0, 0};
  const solver::Result turning = solver::simulate(c);
  c.steps.clear();
  for (int k = 0; k < 4; ++k)
    c.steps.push_back(step(10, {false, 0.5 * std::numbers::pi * k}));
  const solver::Result steps = solver::simulate(c);
  CHECK(turning.steps.size() == 1);
  CHECK(turning.steps[0].angles == 4);
  // The same angles, in another order.
  CHECK(least(turning) == Approx(least(steps)).epsilon(1e-9));
  CHECK(turning.parts[0].thickness.value.max ==
        Approx(steps.parts[0].thickness.value.max).epsilon(1e-9));
}

// All that a cylinder sees of the tank goes round it: after whole turns nothing
// is left but what the meshes and the angles between leave.
TEST_CASE("a cylinder turned about itself becomes even", "[property]") {
  solver::Case c = rod_before_a_sheet();
  CHECK(unevenness(solver::simulate(c)) > 0.5);
  c.steps[0].turning = solver::Turning{0, 0, 0.1};
  const solver::Result turned = solver::simulate(c);
  CHECK(turned.steps[0].angles >= 8);
  const solver::Spread& error = turned.parts[0].thickness.mesh_error;
  const double mean = turned.parts[0].thickness.value.mean;
  CHECK(unevenness(turned) <= (error.min + error.max) / mean);
  CHECK(error.min <= 2 * c.accuracy.tolerance * mean);
}

TEST_CASE("what only a later step does wrong names the step") {
  solver::Case c = rod_before_a_sheet();
  c.section.solids[0] =
      tests::solid(mesh::Role::part, "bar", "plate",
                   {{"width", 0.004}, {"height", 0.05}}, {0.025, 0.03});
  c.steps = {step(10), step(10, {false, std::numbers::pi / 2})};
  CHECK_THROWS_WITH(solver::simulate(c),
                    Catch::Matchers::Contains("overlap") &&
                        Catch::Matchers::Contains("in step 2"));
}

TEST_CASE("steps with their own supply add up", "[property]") {
  solver::Case c = tests::token();
  c.cathode.at.reset();  // evenness does not follow the current
  c.steps = {step(30)};
  const solver::Result one = solver::simulate(c);
  solver::Step half = step(60);
  half.supply = c.supply;
  half.supply->current->value /= 2;
  c.steps = {half};
  const solver::Result longer = solver::simulate(c);
  CHECK(least(longer) == Approx(least(one)).epsilon(1e-9));
  c.steps = {step(30), half};
  const solver::Result both = solver::simulate(c);
  CHECK(least(both) == Approx(2 * least(one)).epsilon(2e-3));
  CHECK(both.steps[1].cell.current == Approx(c.supply.current->value / 2));
}

TEST_CASE("bars of several steps hold against a finer mesh", "[property]") {
  solver::Case c = tests::token();
  c.steps = {step(20), step(20, {true, 0}), step(10, {false, 0.4})};
  const auto coarse = solver::run_schedule(c);
  solver::Case finer = c;
  finer.accuracy.tolerance = 2e-5;
  const auto fine = solver::run_schedule(finer);
  const solver::CoatSpread &a = coarse.spreads[0], &b = fine.spreads[0];
  const auto &p = coarse.errors[0], &q = fine.errors[0];
  CHECK(std::abs(a.thickness.min - b.thickness.min) <= p.least + q.least);
  CHECK(std::abs(a.thickness.mean - b.thickness.mean) <= p.mean + q.mean);
  CHECK(std::abs(a.thickness.max - b.thickness.max) <= p.largest + q.largest);
  CHECK(p.least <= 1e-3 * a.thickness.mean);
  CHECK(p.largest <= 1e-3 * a.thickness.mean);
}
