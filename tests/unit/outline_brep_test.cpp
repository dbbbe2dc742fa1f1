#include "mesh/rounded_polygon.hpp"
#include "tests/unit/outline_samples.hpp"

#include <catch2/catch.hpp>

using namespace thinspot;
using namespace thinspot::mesh;
using tests::read_text;
using tests::refusal;

namespace {

const std::filesystem::path samples =
    std::filesystem::path(THINSPOT_SOURCE_DIR) / "tests/data";

/// The bracket of tests/data, corner by corner.
Outline bracket() {
  return {{rounded_polygon({{{0, 0}, 5e-3, "outside", "outside corner"},
                            {{40e-3, 0}, 0, "leg_1 end", ""},
                            {{40e-3, 3e-3}, 0, "inside", ""},
                            {{3e-3, 3e-3}, 2e-3, "inside", "inside corner"},
                            {{3e-3, 30e-3}, 0, "leg_2 end", ""},
                            {{0, 30e-3}, 0, "outside", ""}},
                           "radius")}};
}

/// Largest distance of the pieces' ends and middles from the other outline.
double apart(const Outline& a, const Outline& b) {
  double largest = 0;
  for (const Loop& loop : a.loops)
    for (const Curve& c : loop)
      for (double t : {0.0, 0.5})
        largest = std::max(largest, tests::distance_from(b, point_at(c, t)));
  return largest;
}

std::string step_text() { return tests::content(samples / "bracket.step"); }

void replace(std::string& text, const std::string& old,
             const std::string& with) {
  const auto at = text.find(old);
  REQUIRE(at != std::string::npos);
  text.replace(at, old.size(), with);
}

}  // namespace

TEST_CASE("the same bracket from CSV, DXF, STEP and by hand is the same") {
  const Outline by_hand = bracket();
  // Legs and corner: 40 x 3 + 27 x 3, less what the roundings change.
  const double pi = std::numbers::pi;
  CHECK(1e6 * area(by_hand) ==
        Approx(201 + (4 - 25) * (1 - pi / 4)).epsilon(1e-12));
  for (const char* name : {"bracket.csv", "bracket.dxf", "bracket.step"}) {
    CAPTURE(name);
    const DrawnOutline drawn = read_outline(samples / name, {});
    CHECK(drawn.notes.empty());
    CHECK_FALSE(drawn.unit_assumed);
    REQUIRE(drawn.outline.loops.size() == 1);
    CHECK(drawn.outline.loops[0].size() == 8);
    CHECK(area(drawn.outline) == Approx(area(by_hand)).epsilon(1e-9));
    CHECK(perimeter(drawn.outline) == Approx(perimeter(by_hand)).epsilon(1e-9));
    // Rounding: 12 digits in the files, 40 mm over all.
    CHECK(apart(drawn.outline, by_hand) < 1e-11);
    CHECK(apart(by_hand, drawn.outline) < 1e-11);
    if (std::string(name) == "bracket.step") continue;
    for (const Curve& c : drawn.outline.loops[0])
      for (const Curve& d : by_hand.loops[0])
        if (nearest(d, point_at(c, 0.5)).distance < 1e-9)
          CHECK(c.face == d.face);
  }
}

TEST_CASE("STEP outline: the file's own unit") {
  std::string inches = step_text();
  replace(inches, "( LENGTH_UNIT() NAMED_UNIT(*) SI_UNIT(.MILLI.,.METRE.) );",
          "( CONVERSION_BASED_UNIT('INCH',#901) LENGTH_UNIT() "
          "NAMED_UNIT(#900) );\n"
          "#900 = DIMENSIONAL_EXPONENTS(1.,0.,0.,0.,0.,0.,0.);\n"
          "#901 = LENGTH_MEASURE_WITH_UNIT(LENGTH_MEASURE(25.4),#902);\n"
          "#902 = ( LENGTH_UNIT() NAMED_UNIT(*) SI_UNIT(.MILLI.,.METRE.) );");
  CHECK(perimeter(read_text("a.stp", inches).outline) ==
        Approx(25.4 * perimeter(bracket())).epsilon(1e-9));
  std::string metres = step_text();
  replace(metres, "SI_UNIT(.MILLI.,.METRE.)", "SI_UNIT($,.METRE.)");
  CHECK(perimeter(read_text("a.STEP", metres).outline) ==
        Approx(1000 * perimeter(bracket())).epsilon(1e-9));
}

TEST_CASE("BREP outline: an ellipse with a hole, without a unit") {
  const DrawnOutline drawn = read_outline(samples / "ellipse.brep", {});
  CHECK(drawn.unit_assumed);
  REQUIRE(drawn.outline.loops.size() == 2);
  // Half axes 10 and 5, hole of radius 2; the bound as for drawn ellipses.
  const double pi = std::numbers::pi;
  const double P = 40 * std::comp_ellint_2(std::sqrt(0.75));
  CHECK(1e6 * area(drawn.outline) == Approx(46 * pi).margin(2e-5 * 20 * P));
  CHECK(1e3 * perimeter(drawn.outline) ==
        Approx(P + 4 * pi).margin(2e-5 * 20 * 2 * pi));
  CHECK(tests::largest_kink(drawn.outline) < 1e-6);
  const DrawnOutline inches =
      read_outline(samples / "ellipse.brep", {25.4e-3, 1});
  CHECK_FALSE(inches.unit_assumed);
  CHECK(perimeter(inches.outline) ==
        Approx(25.4 * perimeter(drawn.outline)).epsilon(1e-9));
}

TEST_CASE("STEP, BREP: a body or a tilted face is no section") {
  using Catch::Contains;
  std::string tilted = step_text();
  // The axis of the placement that holds the face.
  for (auto at = tilted.find("DIRECTION('',(0.,0.,1.))");
       at != std::string::npos; at = tilted.find("DIRECTION('',(0.,0.,1.))"))
    tilted.replace(at, 24, "DIRECTION('',(0.,1.,0.))");
  const std::string said = refusal("a.step", tilted);
  CHECK_THAT(said, Contains("plane z = const"));
  try {
    read_outline(samples / "block.brep", {});
    FAIL("a body was taken for an outline");
  } catch (const InputError& error) {
    CHECK_THAT(error.problems()[0].wrong, Contains("solid bodies (1)"));
  }
}

TEST_CASE("STEP, BREP: cut short, garbage, none at all") {
  using Catch::Contains;
  const std::string step = step_text();
  const std::string brep = tests::content(samples / "ellipse.brep");
  for (std::size_t share = 1; share < 8; ++share) {
    CHECK_THAT(refusal("a.step", step.substr(0, step.size() * share / 8)),
               Contains("cut short"));
    CHECK(refusal("a.brep", brep.substr(0, brep.size() * share / 8)) != "");
  }
  CHECK_THAT(refusal("a.step", "hello"), Contains("is not a STEP file"));
  CHECK_THAT(refusal("a.brep", "hello"), Contains("is not a BREP file"));
  CHECK_THAT(refusal("a.step",
                     "ISO-10303-21;\nDATA;\n#1 = NOTHING(#2,#1);\n"
                     "ENDSEC;\nEND-ISO-10303-21;\n"),
             Contains("\"a.step\" "));
  CHECK_THAT(refusal("a.txt", "hello"), Contains("\".txt\""));
  CHECK_THAT(refusal("a.step", ""), Contains("is empty"));
  const tests::Scratch folder;
  const auto said = [](const std::filesystem::path& file) {
    try {
      read_outline(file, {});
    } catch (const InputError& error) {
      return error.problems()[0].wrong;
    }
    return std::string();
  };
  CHECK_THAT(said(folder / "none.dxf"), Contains("\"none.dxf\" is not there"));
  std::filesystem::create_directory(folder / "a.csv");
  CHECK_THAT(said(folder / "a.csv"), Contains("not a regular file"));
  tests::put(folder / "large.csv", "x,y\n");
  std::filesystem::resize_file(folder / "large.csv", kLargestFile + 1);
  CHECK_THAT(said(folder / "large.csv"), Contains("too large"));
}
