// Metals that touch and have no polarization: a part and its clip, say. The
// node between them is of both.
#include "bench_cases.hpp"
#include "mesh/errors.hpp"
#include "solved.hpp"

#include <catch2/catch.hpp>

using namespace thinspot;
using mesh::Point;
using mesh::Role;

namespace {

/// A plate whose upper piece is called a clip, before a sheet, or whole.
solver::Case plate(bool in_two, double contact) {
  solver::Case c = tests::plan_box(0.06, 0.05, 10);
  const double width = 0.004, cut = 0.03;
  const auto piece = [&](Role role, const char* name, double from, double to) {
    return tests::solid(role, name, "plate",
                        {{"width", width}, {"height", to - from}},
                        {0.04, 0.5 * (from + to)});
  };
  c.section.solids = {
      piece(Role::part, "part", 0.01, in_two ? cut : 0.04),
      tests::solid(Role::anode, "sheet", "plate",
                   {{"width", 0.002}, {"height", 0.03}}, {0.005, 0.025})};
  tests::add_anode(c, 1, 0);
  if (!in_two) return c;
  c.section.solids.push_back(piece(Role::clip, "clip", cut, 0.04));
  solver::Clip clip;
  clip.name = "clip";
  clip.solids = {2};
  clip.contact_resistance.value = contact;
  c.clips.push_back(clip);
  return c;
}

}  // namespace

// One plate in two pieces is one plate: the whole current, and in each piece
// what flows into it where the whole plate is cut.
TEST_CASE("two pieces without polarization plate like one", "[exact]") {
  const auto one = tests::certified(plate(false, 0));
  const auto two = tests::certified(plate(true, 0));
  const auto a = tests::figures_of(one), b = tests::figures_of(two);
  CHECK(std::abs(a.current.value - b.current.value) <=
        a.current.bar + b.current.bar);
  // The plate's lower two thirds, walked over the three sides that are its own.
  const double lower = tests::mean_between(one, {0.038, 0.03}, {0.042, 0.03}) *
                       (0.004 + 2 * 0.02);
  const auto& electrode = two.model.response.electrodes().each[0];
  CHECK(electrode.measure == Approx(0.004 + 2 * 0.02));
  CHECK(std::abs(b.mean.value * electrode.measure - lower) <=
        b.mean.bar * electrode.measure + one.used.accuracy.tolerance * lower);
}

TEST_CASE("pieces at two potentials without polarization are refused") {
  CHECK_THROWS_WITH(tests::solved(plate(true, 0.1)),
                    Catch::Matchers::Contains("no bound"));
}
