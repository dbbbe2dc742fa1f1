// What a clip covers gets nothing while the clip is there: moved between steps,
// each mark gets what the other step leaves; what no step reaches is named.
#include "bench_cases.hpp"
#include "solved.hpp"
#include "solver/simulate.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace thinspot;
using Catch::Matchers::Contains;
using mesh::Role;
using solver::ProbeResult;
using solver::Result;

namespace {

constexpr double wide = 0.003;   // of each clip
constexpr double bite = 1e-5;    // how deep it is pressed in
constexpr double thick = 0.004;  // of the plate

/// A plate that lies in a box, two clips on top of it at either end, one sheet
/// above.
solver::Case plate_with_two_clips() {
  solver::Case c = tests::plan_box(0.08, 0.06, 10);
  const mesh::Point middle(0.04, 0.02);
  const double top = middle.y() + thick / 2;
  const auto clip = [&](const char* name, double x) {
    return tests::solid(Role::clip, name, "plate",
                        {{"width", wide}, {"height", 0.01}},
                        {x, top - bite + 0.005});
  };
  c.section.solids = {
      tests::solid(Role::part, "bar", "plate",
                   {{"width", 0.04}, {"height", thick}}, middle),
      tests::solid(Role::anode, "sheet", "plate",
                   {{"width", 0.06}, {"height", 0.002}}, {0.04, 0.055}),
      clip("clip.a", 0.03), clip("clip.b", 0.05)};
  tests::add_anode(c, 1, 0);
  c.clips = {{"clip.a", {2}, {}}, {"clip.b", {3}, {}}};
  c.cathode.resistance.value = 1e-3;
  c.probes = {{"under a", {0.03, top}}, {"under b", {0.05, top}}};
  return c;
}

solver::Step held_by(const std::vector<std::string>& clips, double minutes) {
  solver::Step s;
  s.duration.value = 60 * minutes;
  s.clips = clips;
  return s;
}

/// Thickness at two probes is one, as far as both meshes know.
void check_alike(const ProbeResult& a, const ProbeResult& b) {
  CAPTURE(a.thickness, b.thickness, a.thickness_mesh_error);
  CHECK(std::abs(a.thickness - b.thickness) <=
        a.thickness_mesh_error + b.thickness_mesh_error);
  CHECK(a.thickness_mesh_error < 0.01 * a.thickness);
}

}  // namespace

TEST_CASE("a mark gets what the step without its clip leaves", "[property]") {
  solver::Case c = plate_with_two_clips();
  c.steps = {held_by({"clip.a"}, 20), held_by({"clip.b"}, 10)};
  const Result both = solver::simulate(c);
  CHECK(both.parts[0].bare.empty());
  c.steps = {held_by({"clip.a"}, 20)};
  const Result first = solver::simulate(c);
  c.steps = {held_by({"clip.b"}, 10)};
  const Result second = solver::simulate(c);
  check_alike(both.probes[0], second.probes[0]);
  check_alike(both.probes[1], first.probes[1]);
  CHECK(first.probes[0].thickness == 0);
  CHECK(second.probes[1].thickness == 0);
  // Of the upper side the marks are the thinnest, that of the shorter step
  // most: within it the step's coat changes by less than a tenth.
  for (const solver::FaceResult& face : both.parts[0].faces)
    if (face.name == "far edge") {
      CHECK(face.thickness.min <= both.probes[0].thickness);
      CHECK(face.thickness.min > 0.9 * both.probes[0].thickness);
      CHECK(face.thickness.mean > 1.5 * both.probes[0].thickness);
    }
}

TEST_CASE("what one clip covers all the time is named with its length",
          "[property]") {
  solver::Case c = plate_with_two_clips();
  c.steps = {held_by({"clip.a"}, 20), held_by({"clip.a"}, 10)};
  const Result r = solver::simulate(c);
  REQUIRE(r.parts[0].bare.size() == 1);
  const solver::Bare& bare = r.parts[0].bare[0];
  CHECK(bare.face == "far edge");
  CHECK_THAT(bare.why, Contains("under the clip"));
  // Ends of the contact are corners of the drawing: they carry no mesh error.
  CHECK(bare.to - bare.from == Approx(wide).epsilon(1e-6));
  // Arc counter-clockwise from the middle of the underside: half of that, the
  // right edge, then along the top.
  const double at = 0.02 + thick + (0.06 - 0.03);
  CHECK(0.5 * (bare.from + bare.to) == Approx(at).epsilon(1e-6));
}

TEST_CASE("a clip that grips another place names that place", "[property]") {
  // Turned by half a turn in every step, the bar is held at what was drawn
  // as its underside.
  solver::Case c = plate_with_two_clips();
  c.probes.clear();
  solver::Step turned = held_by({"clip.a"}, 20);
  turned.motion.turn = std::numbers::pi;
  c.steps = {turned, turned};
  const Result r = solver::simulate(c);
  REQUIRE(r.parts[0].bare.size() == 1);
  const solver::Bare& bare = r.parts[0].bare[0];
  CHECK_THAT(bare.why, Contains("under the clip"));
  CHECK(bare.to - bare.from == Approx(wide).epsilon(1e-6));
  // The clip at 30 mm meets what is drawn at 50 mm of the underside, 10 mm
  // from its middle.
  CHECK(0.5 * (bare.from + bare.to) == Approx(0.01).epsilon(1e-6));
}

TEST_CASE("one place under two clips in turn tells of both", "[property]") {
  // Half a turn and another clip: the same mark under either.
  solver::Case c = plate_with_two_clips();
  c.probes.clear();
  solver::Step drawn = held_by({"clip.a"}, 20);
  solver::Step turned = held_by({"clip.b"}, 20);
  // Both clips at the top: turned about the centre the place under b is what
  // was underneath at 30 mm; flipped it is the place under a.
  turned.motion.flip = true;
  c.section.cut = mesh::Cut::side;
  c.section.tank.level = 0.06;
  c.steps = {drawn, turned};
  const Result r = solver::simulate(c);
  REQUIRE(r.parts[0].bare.size() == 1);
  CHECK_THAT(r.parts[0].bare[0].why,
             Contains("under the clip a") && Contains("under the clip b"));
}
