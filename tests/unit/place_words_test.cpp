#include "solver/place_words.hpp"
#include "mesh/section.hpp"
#include "tests/solids.hpp"

#include <catch2/catch.hpp>

#include <limits>

using namespace thinspot;
using namespace thinspot::mesh;
using thinspot::solver::place_in_words;
using thinspot::tests::solid;

namespace {

SectionSpec tank_with(const std::string& shape, const Sizes& sizes, Point at,
                      Cut cut = Cut::side) {
  SectionSpec spec;
  spec.cut = cut;
  spec.tank.width = cut == Cut::axisymmetric ? 0.18 : 0.09;
  spec.tank.height = 0.12;
  spec.tank.level = 0.1;
  spec.solids = {solid(Role::part, "part", shape, sizes, at)};
  return spec;
}

/// A part drawn by hand, under its own loops.
SectionSpec drawn(const Outline& outline, Cut cut = Cut::side) {
  SectionSpec spec = tank_with("outline", {}, {0.045, 0.05}, cut);
  spec.solids[0].drawn = outline;
  return spec;
}

std::string words_at(const Section& section, const Outline& outline,
                     const Point& p) {
  int loop = 0, curve = 0;
  Foot best{0, std::numeric_limits<double>::infinity()};
  for (std::size_t l = 0; l < outline.loops.size(); ++l)
    for (std::size_t k = 0; k < outline.loops[l].size(); ++k) {
      const Foot foot = nearest(outline.loops[l][k], p);
      if (foot.distance >= best.distance) continue;
      best = foot;
      loop = static_cast<int>(l);
      curve = static_cast<int>(k);
    }
  return place_in_words(section, outline, loop, curve, best.t);
}

std::string words_at(const SectionSpec& spec, const Point& p) {
  const Section section = build_section(spec);
  return words_at(section, section.solids[0].outline, p);
}

const Sizes token{
    {"diameter", 0.03}, {"thickness", 0.0024}, {"edge_radius", 0.0003}};

Curve straight(Point a, Point b, const std::string& face) {
  return {a, b, 0, face};
}

/// L of 40 mm x 40 mm, legs 10 mm thick, corner at the lower left.
Outline angle_of_one_face(const std::string& face) {
  const std::vector<Point> p{{-0.02, -0.02}, {0.02, -0.02}, {0.02, -0.01},
                             {-0.01, -0.01}, {-0.01, 0.02}, {-0.02, 0.02}};
  Loop loop;
  for (std::size_t k = 0; k < p.size(); ++k)
    loop.push_back(straight(p[k], p[(k + 1) % p.size()], face));
  return {{loop}};
}

}  // namespace

TEST_CASE("a place on a face is told from the face's nearer end", "[places]") {
  const SectionSpec spec = tank_with("coin", token, {0.045, 0.05});
  CHECK(words_at(spec, {0.0438, 0.05}) == "middle of the left face");
  CHECK(words_at(spec, {0.0462, 0.051}) == "middle of the right face");
  // The face and its rounded edges share 29.4 mm and two quarter circles: the
  // face's end lies where the edge begins, 14.7 mm from the centre.
  CHECK(words_at(spec, {0.0462, 0.05 + 0.0107}) ==
        "on the right face, 4 mm from the upper rim");
  CHECK(words_at(spec, {0.0438, 0.05 - 0.0146}) ==
        "on the left face at the lower rim");
  // 1.8 mm and two quarter circles of 0.3 mm: too short to measure along.
  CHECK(words_at(spec, {0.0445, 0.065}) == "at the upper rim");
}

TEST_CASE("a turned part keeps its faces", "[places]") {
  SectionSpec spec = tank_with("coin", token, {0.045, 0.05});
  spec.solids[0].turn = 3.14159265358979;
  // What was left now looks right.
  CHECK(words_at(spec, {0.0462, 0.05}) == "middle of the left face");
}

TEST_CASE("a rod seen end on: the way that the place lies", "[places]") {
  const Sizes rod{{"diameter", 0.01}};
  const SectionSpec side = tank_with("rod", rod, {0.045, 0.05});
  CHECK(words_at(side, {0.05, 0.05}) == "on the side towards the right");
  CHECK(words_at(side, {0.045, 0.06}) == "on the side towards the top");
  CHECK(words_at(side, {0.041, 0.046}) == "on the side towards the lower left");
  const SectionSpec plan = tank_with("rod", rod, {0.045, 0.05}, Cut::plan);
  CHECK(words_at(plan, {0.045, 0.045}) == "on the side towards the near wall");
  CHECK(words_at(plan, {0.049, 0.054}) == "on the side towards the far right");
}

TEST_CASE("a bore looks inwards: only where it lies is said", "[places]") {
  const SectionSpec spec =
      tank_with("tube", {{"diameter", 0.03}, {"wall", 0.002}, {"open", 1}},
                {0.045, 0.05});
  CHECK(words_at(spec, {0.0585, 0.05}) == "on the bore towards the right");
  CHECK(words_at(spec, {0.0605, 0.05}) == "on the outside towards the right");
}

TEST_CASE("two faces of one name are told apart", "[places]") {
  const SectionSpec spec = tank_with(
      "tube",
      {{"diameter", 0.03}, {"wall", 0.002}, {"length", 0.06}, {"open", 1}},
      {0.045, 0.05});
  CHECK(words_at(spec, {0.032, 0.05}) == "middle of the left bore");
  CHECK(words_at(spec, {0.058, 0.07}) ==
        "on the right bore, 10 mm from the upper end");
}

TEST_CASE("a drawn outline of one name: place and facing", "[places]") {
  const SectionSpec spec = drawn(angle_of_one_face("outline"));
  // Inner sides of the legs; the part's middle is at (45, 50) mm.
  CHECK(words_at(spec, {0.035, 0.06}) ==
        "on the outline towards the upper left facing right");
  CHECK(words_at(spec, {0.055, 0.04}) ==
        "on the outline towards the lower right facing up");
  CHECK(words_at(spec, {0.065, 0.036}) ==
        "on the outline towards the lower right");
  // The names of a drawing's layers are quoted as they are.
  CHECK(words_at(drawn(angle_of_one_face("0")), {0.065, 0.036}) ==
        "on the face \"0\" towards the lower right");
}

TEST_CASE("half dipped: the liquid's surface ends a face", "[places]") {
  // From 70 to 130 mm, liquid up to 100 mm.
  const SectionSpec spec =
      tank_with("plate", {{"width", 0.002}, {"height", 0.06}}, {0.045, 0.1});
  CHECK(words_at(spec, {0.044, 0.092}) ==
        "on the left face, 8 mm from the liquid surface");
  CHECK(words_at(spec, {0.044, 0.0995}) ==
        "on the left face at the liquid surface");
  CHECK(words_at(spec, {0.044, 0.075}) ==
        "on the left face, 5 mm from the lower edge");
}

TEST_CASE("a clip that touches ends a face", "[places]") {
  SectionSpec spec = tank_with("coin", token, {0.045, 0.05});
  // Lies against the right face from 55 to 61 mm.
  spec.solids.push_back(solid(Role::clip, "top", "plate",
                              {{"width", 0.002}, {"height", 0.006}},
                              {0.0472, 0.058}));
  CHECK(words_at(spec, {0.0462, 0.053}) ==
        "on the right face, 2 mm from clip top");
  CHECK(words_at(spec, {0.0438, 0.05}) == "middle of the left face");
}

TEST_CASE("lacquer ends a face", "[places]") {
  Section section = build_section(
      tank_with("plate", {{"width", 0.002}, {"height", 0.06}}, {0.045, 0.05}));
  Loop& loop = section.solids[0].outline.loops[0];
  const auto left = std::find_if(loop.begin(), loop.end(), [](const Curve& c) {
    return c.face == "left";
  });
  // Counter-clockwise the left face runs down: lacquered below 40 mm.
  Curve below = *left;
  below.from = {0.044, 0.04};
  below.masked = true;
  left->to = below.from;
  loop.insert(left + 1, below);
  CHECK(words_at(section, section.solids[0].outline, {0.044, 0.046}) ==
        "on the left face, 6 mm from the lacquer");
}

TEST_CASE("around the axis: the axis is a face's middle", "[places]") {
  const SectionSpec spec =
      tank_with("coin", token, {0, 0.05}, Cut::axisymmetric);
  CHECK(words_at(spec, {0.0005, 0.0512}) == "middle of the upper face");
  CHECK(words_at(spec, {0.006, 0.0512}) ==
        "on the upper face, 6 mm from the axis");
  CHECK(words_at(spec, {0.0117, 0.0488}) ==
        "on the lower face, 3 mm from the rim");
}

TEST_CASE("the shapes of the bench", "[places]") {
  const SectionSpec spoon = tank_with(
      "spoon", {{"chord", 0.06}, {"sagitta", 0.008}, {"thickness", 0.0015}},
      {0.045, 0.05});
  const Section placed = build_section(spoon);
  const Box box = bounding_box(placed.solids[0].outline);
  CHECK(words_at(spoon, {box.high.x(), box.high.y()}) == "at the tip");
  CHECK(words_at(spoon, {0.045, box.low.y()}) == "middle of the back");

  // Legs of 40 and 30 mm: the corner at (25, 35) mm.
  const SectionSpec bracket = tank_with("bracket",
                                        {{"leg_1", 0.04},
                                         {"leg_2", 0.03},
                                         {"thickness", 0.003},
                                         {"inside_radius", 0.002},
                                         {"outside_radius", 0.005}},
                                        {0.045, 0.05});
  CHECK(words_at(bracket, {0.025, 0.059}) ==
        "on the outside of leg 2, 6 mm from the leg 2 end");
  CHECK(words_at(bracket, {0.0285, 0.0385}) == "at the inside corner");

  // 20 mm wide, 40 mm deep, walls of 2 mm, in the tank from (35, 30) mm.
  const SectionSpec channel =
      tank_with("channel", {{"width", 0.02}, {"depth", 0.04}, {"wall", 0.002}},
                {0.045, 0.05});
  CHECK(words_at(channel, {0.037, 0.039}) ==
        "on the left wall, 7 mm from the bottom");
  CHECK(words_at(channel, {0.045, 0.032}) == "middle of the bottom");
}
