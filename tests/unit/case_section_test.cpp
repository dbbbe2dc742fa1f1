// Tank, view and symmetry: which keys go together.
#include "case_text.hpp"
#include "io/case_file.hpp"

#include <catch2/catch.hpp>

#include <numbers>

using namespace thinspot;
using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinRel;

namespace {

constexpr double kRounding = 1e-13;

std::string plan_case() {
  std::string text =
      with(sound_case(), "schema = 1", "schema = 1\nview = \"plan\"");
  return with(text, "level = \"100 mm\"\n", "");
}

std::string axisymmetric_case() {
  std::string text = with(sound_case(), "schema = 1",
                          "schema = 1\nsection = \"axisymmetric\"");
  text = with(text, "[\"45 mm\", \"50 mm\"]", "[\"0 mm\", \"50 mm\"]");
  return with(text, "\"left\"", "\"above\"");
}

}  // namespace

TEST_CASE("The level follows from the volume", "[case_file]") {
  const std::string by_volume = with(sound_case(), "level = \"100 mm\"",
                                     "volume = \"540 ml\"\ndepth = \"60 mm\"");
  // 540 cm3 / (9 cm x 6 cm)
  CHECK_THAT(read_text(by_volume).content.section.tank.level,
             WithinRel(0.1, kRounding));
  CHECK_THAT(only_problem(with(by_volume, "depth = \"60 mm\"", "")),
             Contains("tank.depth: is missing"));
  CHECK_THAT(only_problem(with(by_volume, "540 ml", "700 ml")),
             Contains("tank.volume: the liquid would stand 129.6 mm high"));
  CHECK_THAT(only_problem(with(sound_case(), "level =",
                               "volume = \"540 ml\"\ndepth = \"60 mm\"\n"
                               "level =")),
             Contains("give one of the two"));
  CHECK_THAT(
      only_problem(with(sound_case(), "level =", "depth = \"60 mm\"\nlevel =")),
      Contains("serves with volume only"));
}

TEST_CASE("A view from above has no level", "[case_file]") {
  const solver::Case c = read_text(plan_case()).content;
  CHECK(c.section.cut == mesh::Cut::plan);
  CHECK_THAT(only_problem(with(plan_case(), "width = \"90 mm\"",
                               "width = \"90 mm\"\nlevel = \"10 mm\"")),
             Contains("tank.level: a view from above has none"));
}

TEST_CASE("A round tank has a diameter", "[case_file]") {
  std::string text = with(plan_case(), "width = \"90 mm\"\nheight = \"120 mm\"",
                          "shape = \"round\"\ndiameter = \"95 mm\"");
  const mesh::Tank tank = read_text(text).content.section.tank;
  CHECK(tank.shape == mesh::Tank::Shape::round);
  CHECK_THAT(tank.width, WithinRel(0.095, kRounding));
  CHECK_THAT(only_problem(with(text, "diameter = \"95 mm\"", "")),
             Contains("tank.diameter: is missing"));
  CHECK_THAT(only_problem(with(text, "diameter = \"95 mm\"",
                               "diameter = \"95 mm\"\nwidth = \"1 mm\"")),
             Contains("tank.width: a round tank has none"));
  text = with(sound_case(), "[tank]", "[tank]\nshape = \"round\"");
  CHECK_THAT(only_problem(text), Contains("view = \"plan\""));
}

TEST_CASE("An axisymmetric section is about x = 0", "[case_file]") {
  const std::string text = axisymmetric_case();
  const solver::Case c = read_text(text).content;
  CHECK(c.section.cut == mesh::Cut::axisymmetric);
  // A jar of 90 mm holding 500 ml.
  const solver::Case jar = read_text(text, {"tank.volume=500 ml"}).content;
  CHECK_THAT(jar.section.tank.level,
             WithinRel(5e-4 / (std::numbers::pi * 0.045 * 0.045), kRounding));
  struct Slip {
    const char* piece;
    const char* slip;
    const char* says;
  };
  const std::vector<Slip> slips{
      {"\"0 mm\", \"50 mm\"", "\"5 mm\", \"50 mm\"", "a coin must stand on"},
      {"\"0 mm\", \"50 mm\"", "\"-5 mm\", \"50 mm\"", "left of the axis"},
      {"at =", "turn = \"30 deg\"\nat =", "off its axis"},
      {"at =", "area = \"1 dm2\"\nat =", "knows the area itself"},
      {"\"above\"", "\"left\"", "the same as right"},
      {"section =", "view = \"side\"\nsection =", "has no view"},
      {"section =", "depth = \"1 mm\"\nsection =", "has no depth"},
  };
  for (const Slip& s : slips) {
    CAPTURE(s.slip);
    CHECK_THAT(only_problem(with(text, s.piece, s.slip)), Contains(s.says));
  }
  CHECK_NOTHROW(read_text(text, {"part.turn=180 deg"}));
  CHECK_NOTHROW(read_text(with(text, "\"above\"", "\"right\"")));
}

TEST_CASE("A planar section needs the part's area or a depth", "[case_file]") {
  std::string text = with(sound_case(), "\"coin\"", "\"plate\"");
  text = with(text,
              "diameter = \"30 mm\"\nthickness = \"2.4 mm\"\n"
              "edge_radius = \"0.3 mm\"\n",
              "width = \"3 mm\"\nheight = \"30 mm\"\n");
  CHECK_THAT(only_problem(text), Contains("part.area: is missing"));
  CHECK_NOTHROW(read_text(text, {"part.area=0.2 dm2"}));
  CHECK_NOTHROW(read_text(text, {"depth=30 mm"}));
  CHECK_THAT(only_problem(text, {"part.area=0.2 dm2", "depth=30 mm"}),
             Contains("give one of part.area and depth"));
}

TEST_CASE("The end of a rod seen end on has no radius to assume",
          "[case_file]") {
  std::string text = with(plan_case(), "\"coin\"", "\"rod\"");
  text = with(text, "thickness = \"2.4 mm\"\nedge_radius = \"0.3 mm\"",
              "length = \"60 mm\"");
  CHECK(read_text(text).content.assumed.empty());
  const solver::Case side =
      read_text(text, {"view=side", "tank.level=100 mm"}).content;
  REQUIRE(side.assumed.size() == 1);
  CHECK(side.assumed[0].key == "part.end_radius");
}
