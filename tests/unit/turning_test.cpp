#include "solver/turning.hpp"

#include <catch2/catch.hpp>

#include <numbers>
#include <vector>

using namespace thinspot;
using solver::Angle;
using solver::angles_of;

namespace {

constexpr double pi = std::numbers::pi;

double sum(const std::vector<Angle>& angles) {
  double all = 0;
  for (const Angle& a : angles) all += a.share;
  return all;
}

}  // namespace

TEST_CASE("positions share the time as the clock has it, the first one last") {
  // 30 + 30 + 30 + 10 seconds.
  const auto at = angles_of({4, 30, 0}, 100, 0);
  REQUIRE(at.size() == 4);
  const double shares[] = {0.3, 0.3, 0.1, 0.3}, turns[] = {0.5, 1, 1.5, 0};
  for (std::size_t k = 0; k < 4; ++k) {
    CHECK(at[k].share == Approx(shares[k]));
    CHECK(at[k].turn == Approx(turns[k] * pi).margin(1e-15));
  }
  CHECK(at.back().index == 0);
  // Without a dwell all have the same; those that no time is left for are not.
  for (const Angle& a : angles_of({5, 0, 0}, 60, 0))
    CHECK(a.share == Approx(0.2));
  CHECK(angles_of({8, 60, 0}, 100, 0).size() == 2);
}

TEST_CASE("whole turns give all angles the same, parts of one what they pass") {
  const auto whole = angles_of({0, 0, 0.1}, 60, 8);
  REQUIRE(whole.size() == 8);
  for (const Angle& a : whole) CHECK(a.share == Approx(0.125));
  // Half a turn passes half of the first eighth and half of the fifth.
  const auto half = angles_of({0, 0, 0.1}, 5, 8);
  REQUIRE(half.size() == 5);
  const double shares[] = {0.25, 0.25, 0.25, 0.125, 0.125};
  for (std::size_t k = 0; k < 5; ++k) CHECK(half[k].share == Approx(shares[k]));
  CHECK(half.back().index == 0);
  CHECK(half[0].turn == Approx(pi / 4));
  CHECK(angles_of({0, 0, -0.1}, 5, 8)[0].turn == Approx(-pi / 4));
  for (double turns : {0.03, 0.4, 1.2, 7.9})
    CHECK(sum(angles_of({0, 0, turns}, 1, 16)) == Approx(1));
}

TEST_CASE("a turning step becomes one for each angle, as long together") {
  solver::Case c;
  c.steps.resize(3);
  c.steps[0].duration = {600, 60};
  c.steps[1].duration = {100, 10};
  c.steps[1].motion = {true, 0.5};
  c.steps[1].turning = solver::Turning{4, 30, 0};
  c.steps[2].duration = {60, 0};
  c.steps[2].turning = solver::Turning{0, 0, 1};
  const solver::Expanded all = solver::expanded(c, {1, 1, 16});
  REQUIRE(all.content.steps.size() == 21);
  REQUIRE(all.phases.size() == 21);
  CHECK(all.phases[0].step == 0);
  CHECK(all.phases[4].step == 1);
  CHECK(all.phases[5].step == 2);
  CHECK(all.content.steps[4].motion == mesh::Motion{true, 0.5});
  CHECK(all.content.steps[1].motion.turn == Approx(0.5 + pi / 2));
  CHECK(all.content.steps[1].duration.value == Approx(30));
  CHECK(all.content.steps[1].duration.plus_minus == Approx(3));
  CHECK(solver::total_duration(all.content) == Approx(760));
}
