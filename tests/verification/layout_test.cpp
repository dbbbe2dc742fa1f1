// A part kept with the liquid about it, and only the tank around meshed anew,
// is what a mesh of the whole gives; and the quick look of a search is what a
// full solve gives.
#include "solver/layout.hpp"

#include "bench_cases.hpp"
#include "solver/schedule.hpp"

#include <catch2/catch.hpp>

#include <Eigen/QR>

#include <cmath>
#include <numbers>

using namespace thinspot;

namespace {

/// Meshes of a search aim at 5e-3; measured beside a hundred times finer ones
/// they and the waves left out (2e-4) stay within a fifth of that.
constexpr double kOfMesh = 1e-3;

solver::Yield full(const solver::Case& c) {
  const solver::Schedule s = solver::run_schedule(c);
  const double time = solver::total_duration(c);
  solver::Yield y;
  y.least = s.spreads[0].least_judged.value / time;
  y.mean = s.spreads[0].thickness.mean / time;
  y.largest = s.spreads[0].thickness.max / time;
  return y;
}

void check_alike(const solver::Yield& quick, const solver::Yield& exact) {
  CHECK(std::abs(quick.least - exact.least) < kOfMesh * exact.mean);
  CHECK(std::abs(quick.mean - exact.mean) < kOfMesh * exact.mean);
  CHECK(std::abs(quick.largest - exact.largest) < kOfMesh * exact.mean);
}

/// Nothing in it is symmetric: every motion gives another field.
solver::Case lopsided() {
  solver::Case c = tests::token();
  c.section.solids[0].turn = 0.3;
  c.section.solids[1].at.y() += 0.01;
  return c;
}

}  // namespace

TEST_CASE("a kept part in a new tank is what a mesh of both gives",
          "[layout]") {
  const solver::Case c = lopsided();
  solver::FreePart part(c);
  const double pi = std::numbers::pi;
  for (const double gap : {0.0, 0.006, 0.012})
    for (const mesh::Motion& motion :
         {mesh::Motion{false, 0.0}, mesh::Motion{true, 0.0},
          mesh::Motion{false, pi / 2}, mesh::Motion{true, 0.7}}) {
      solver::Case there = c;
      there.section.solids[1].at.x() += gap;
      solver::Step step = there.steps.front();
      step.motion = motion;
      solver::Layout kept(there, &part), anew(there, nullptr);
      const solver::Yield a = kept.yield({step}, 1), b = anew.yield({step}, 1);
      INFO("moved by " << gap << " m, turned by " << motion.turn);
      CHECK(kept.reuses_part());
      CHECK_FALSE(anew.reuses_part());
      check_alike(a, b);
    }
}

TEST_CASE("a kept part may stand elsewhere in the tank", "[layout]") {
  const solver::Case c = lopsided();
  solver::FreePart part(c);
  solver::Case moved = c;
  moved.section.solids[0].at += mesh::Point(0.006, 0.012);
  solver::Layout kept(moved, &part), anew(moved, nullptr);
  const solver::Yield a = kept.yield(moved.steps, 1);
  CHECK(kept.reuses_part());
  check_alike(a, anew.yield(moved.steps, 1));
}

TEST_CASE("a quick look agrees with a full solve", "[layout]") {
  solver::Case c = lopsided();
  solver::Step turned = c.steps.front();
  turned.motion.flip = true;
  turned.duration.value = 900;
  c.steps.push_back(turned);
  solver::FreePart part(c);
  solver::Layout kept(c, &part), anew(c, nullptr);
  const solver::Yield exact = full(c);
  check_alike(kept.yield(c.steps, 1), exact);
  check_alike(anew.yield(c.steps, 1), exact);

  // Turning on a motor goes by the steps' own times.
  solver::Case motor = tests::token();
  motor.steps.front().turning = solver::Turning{0, 0, 1.0 / 30};
  solver::Layout turning(motor, nullptr);
  check_alike(turning.yield(motor.steps, 1), full(motor));
}

TEST_CASE("currents scale what a layout yields", "[layout]") {
  solver::Case c = tests::token();
  c.cathode.at.reset();
  solver::Layout layout(c, nullptr);
  const solver::Yield once = layout.yield(c.steps, 1),
                      twice = layout.yield(c.steps, 2);
  // Slopes that stay what they are: all is proportional, but for rounding.
  CHECK(twice.least == Approx(2 * once.least).epsilon(1e-9));
  CHECK(twice.densest == Approx(2 * once.densest).epsilon(1e-9));
  CHECK(twice.current == Approx(2 * once.current).epsilon(1e-12));
  CHECK(twice.metal == Approx(2 * once.metal).epsilon(1e-9));
}

TEST_CASE("what meshes differ by is far below what a plan tells apart",
          "[layout]") {
  // A sheet moved in steps of a tenth of a millimetre: a figure that moves on
  // smoothly but for its mesh. A plan tells set-ups apart by a hundredth.
  constexpr int places = 21;
  const solver::Case c = tests::token();
  solver::FreePart part(c);
  for (solver::FreePart* kept :
       {&part, static_cast<solver::FreePart*>(nullptr)}) {
    Eigen::VectorXd least(places);
    Eigen::MatrixXd smooth(places, 3);
    for (int k = 0; k < places; ++k) {
      solver::Case moved = c;
      moved.section.solids[1].at.x() += 1e-4 * k;
      solver::Layout layout(moved, kept);
      least(k) = layout.yield(moved.steps, 1).least;
      const double x = double(k) / (places - 1);
      smooth.row(k) << 1, x, x * x;
    }
    const Eigen::VectorXd fit =
        smooth * smooth.colPivHouseholderQr().solve(least);
    CHECK((least - fit).cwiseAbs().maxCoeff() < 1e-3 * least.mean());
  }
}
