// Solids and tanks drawn in files.
#include "case_text.hpp"
#include "io/case_file.hpp"
#include "mesh/curve.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

using namespace thinspot;
using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr double kRounding = 1e-13;

// Symmetric about x = 2, and not; a half of a figure that is turned.
const std::string kTriangle = "x,y,face\n0,0,foot\n4,0,right\n2,3,left\n";
const std::string kSlanted = "x,y\n0,0\n4,0\n4,3\n";
// Symmetric, but its left half has one point more.
const std::string kSplit = "x,y\n0,0\n4,0\n4,3\n0,3\n0,1\n";

std::string drawn_part(const std::string& lines) {
  std::string text = with(sound_case(), "\"coin\"", "\"outline\"");
  return with(text,
              "diameter = \"30 mm\"\nthickness = \"2.4 mm\"\n"
              "edge_radius = \"0.3 mm\"\n",
              "area = \"0.1 dm2\"\n" + lines);
}

std::string axisymmetric(std::string text, const std::string& at) {
  text = with(text, "schema = 1", "schema = 1\nsection = \"axisymmetric\"");
  text = with(text, "area = \"0.1 dm2\"\n", "");
  text = with(text, "side = \"left\"", "side = \"above\"");
  return with(text, "[\"45 mm\", \"50 mm\"]", at);
}

mesh::Box part_box(const solver::Case& c) {
  return mesh::bounding_box(c.section.solids.at(0).drawn);
}

}  // namespace

TEST_CASE("A drawn part is centred on its box", "[case_file]") {
  put_beside_case("triangle.csv", kTriangle);
  const solver::Case c =
      read_text(drawn_part("file = \"triangle.csv\"\nunit = \"cm\"\n")).content;
  const mesh::Solid& part = c.section.solids.at(0);
  CHECK(part.shape == "outline");
  CHECK(part.sizes.empty());
  CHECK_THAT(part.at.x(), WithinRel(0.045, kRounding));
  CHECK_THAT(part_box(c).size().x(), WithinRel(0.04, kRounding));
  CHECK_THAT(part_box(c).size().y(), WithinRel(0.03, kRounding));
  CHECK_THAT(part_box(c).centre().norm(), WithinAbs(0.0, 1e-16));
  CHECK(c.assumed.empty());
  // Its faces are those of the drawing.
  CHECK_NOTHROW(read_text(drawn_part("file = \"triangle.csv\"\n"),
                          {"target.faces=[\"foot\"]"}));
  CHECK_THAT(only_problem(drawn_part("file = \"triangle.csv\"\n"),
                          {"target.faces=[\"foott\"]"}),
             Contains("is \"foot\" meant?"));
}

TEST_CASE("Unit and scale of a drawing", "[case_file]") {
  put_beside_case("triangle.csv", kTriangle);
  const solver::Case plain =
      read_text(drawn_part("file = \"triangle.csv\"\n")).content;
  CHECK_THAT(part_box(plain).size().x(), WithinRel(0.004, kRounding));
  REQUIRE(plain.assumed.size() == 1);
  CHECK(plain.assumed[0].key == "part.unit");
  CHECK(plain.assumed[0].value == "mm");
  const solver::Case twice =
      read_text(drawn_part("file = \"triangle.csv\"\nunit = \"in\"\n"
                           "scale = 0.5\n"))
          .content;
  CHECK_THAT(part_box(twice).size().x(), WithinRel(0.0508, kRounding));
  struct Slip {
    const char* line;
    const char* says;
  };
  const std::vector<Slip> slips{
      {"scale = 0\n", "part.scale: 0 is out of range"},
      {"scale = -1\n", "part.scale: -1 is out of range"},
      {"scale = nan\n", "part.scale: nan is out of range"},
      {"scale = \"2\"\n", "part.scale: is a text, not a bare number"},
      {"unit = \"A\"\n", "part.unit: \"A\" is not a unit of length"},
      {"unit = \"2 mm\"\n", "\"2 mm\" is not a unit of length"},
      {"unit = \"mm +- 1 mm\"\n", "is not a unit of length"},
      {"unit = 1\n", "part.unit: is a bare number"},
      {"unit = \"km\"\n", "is drawn 4e+06 mm wide"},
      {"width = \"1 mm\"\n", "part.width: is not a key of this table"},
  };
  for (const Slip& s : slips) {
    CAPTURE(s.line);
    CHECK_THAT(only_problem(drawn_part("file = \"triangle.csv\"\n" +
                                       std::string(s.line))),
               Contains(s.says));
  }
}

TEST_CASE("Drawings lie in the case file's folder", "[case_file][hostile]") {
  namespace fs = std::filesystem;
  put_beside_case("triangle.csv", kTriangle);
  const auto refusal = [](const std::string& file) {
    return only_problem(drawn_part("file = \"" + file + "\"\n"));
  };
  CHECK_THAT(refusal("/etc/passwd"), Contains("is an absolute path"));
  CHECK_THAT(refusal("../triangle.csv"), Contains("leaves the case file's"));
  CHECK_THAT(refusal("a/../../triangle.csv"), Contains("leaves the case"));
  CHECK_THAT(refusal(""), Contains("part.file: "));
  CHECK_THAT(refusal("absent.csv"), Contains("part.file: "));
  CHECK_THAT(refusal("."), Contains("part.file: "));
  const fs::path outside = case_folder().parent_path() /
                           (case_folder().filename().string() + "-outside.csv");
  std::ofstream(outside) << kTriangle;
  const fs::path link = case_folder() / "link.csv";
  fs::remove(link);
  fs::create_symlink(outside, link);
  CHECK_THAT(refusal("link.csv"), Contains("is a link out of the case"));
  fs::remove(link);
  fs::create_directory_symlink(case_folder().parent_path(), link);
  CHECK_THAT(refusal("link.csv/" + outside.filename().string()),
             Contains("is a link out of the case"));
  fs::remove(link);
  fs::remove(outside);
  fs::create_symlink("triangle.csv", link);
  CHECK_NOTHROW(read_text(drawn_part("file = \"link.csv\"\n")));
  fs::remove(link);
  CHECK_THAT(only_problem(drawn_part("")), Contains("part.file: is missing"));
}

TEST_CASE("What the command line names may lie anywhere", "[case_file]") {
  namespace fs = std::filesystem;
  const fs::path outside = case_folder().parent_path() /
                           (case_folder().filename().string() + "-set.csv");
  std::ofstream(outside) << kTriangle;
  const std::string text = drawn_part("file = \"absent.csv\"\n");
  for (const std::string& file :
       {outside.string(), "../" + outside.filename().string()})
    CHECK_NOTHROW(read_text(text, {"part.file=" + file}));
  CHECK_THAT(only_problem(text, {"part.file=/dev/zero"}),
             Contains("which is no kind of drawing"));
  CHECK_THAT(only_problem(drawn_part("file = \"" + outside.string() + "\"\n"),
                          {"part.scale=2"}),
             Contains("is an absolute path; put the drawing beside the case "
                      "file, or name it with --set part.file"));
  fs::remove(outside);
}

TEST_CASE("A drawn part does not tell its area", "[case_file]") {
  put_beside_case("triangle.csv", kTriangle);
  const std::string text =
      with(drawn_part("file = \"triangle.csv\"\n"), "area = \"0.1 dm2\"\n", "");
  CHECK_THAT(only_problem(text), Contains("part.area: is missing"));
  CHECK_NOTHROW(read_text(text, {"depth=10 mm"}));
}

TEST_CASE("Any shape serves for any role", "[case_file]") {
  put_beside_case("triangle.csv", kTriangle);
  for (const char* table : {"clip", "anode", "shield", "thief", "floating"}) {
    CAPTURE(table);
    const std::string name = table;
    const solver::Case c =
        read_text(and_also("[[" + name +
                           "]]\nname = \"a\"\n"
                           "shape = \"outline\"\nfile = \"triangle.csv\"\n"
                           "at = [\"80 mm\", \"20 mm\"]\n"))
            .content;
    bool found = false;
    for (const mesh::Solid& s : c.section.solids)
      found = found || (s.key == name + ".a" && !s.drawn.loops.empty());
    CHECK(found);
  }
}

TEST_CASE("What stands on the axis is like on both sides", "[case_file]") {
  put_beside_case("triangle.csv", kTriangle);
  put_beside_case("slanted.csv", kSlanted);
  put_beside_case("split.csv", kSplit);
  const auto on_axis = [](const std::string& file) {
    return axisymmetric(drawn_part("file = \"" + file + "\"\n"),
                        "[\"0 mm\", \"50 mm\"]");
  };
  CHECK_NOTHROW(read_text(on_axis("triangle.csv")));
  CHECK_NOTHROW(read_text(on_axis("triangle.csv"), {"part.turn=180 deg"}));
  CHECK_NOTHROW(read_text(on_axis("split.csv")));
  CHECK_THAT(only_problem(on_axis("triangle.csv"), {"part.turn=90 deg"}),
             Contains("its left is not like its right"));
  CHECK_THAT(only_problem(on_axis("slanted.csv")),
             Contains("part.at: stands on the axis") &&
                 Contains("x = 2 mm puts its left edge on the axis"));
  // Half a profile, from the axis outwards; and a ring.
  for (const char* at : {"[\"2 mm\", \"50 mm\"]", "[\"20 mm\", \"50 mm\"]"})
    CHECK_NOTHROW(
        read_text(with(axisymmetric(drawn_part("file = \"slanted.csv\"\n"), at),
                       "side = \"above\"", "side = \"right\"")));
}

TEST_CASE("A tank may be drawn", "[case_file]") {
  put_beside_case("tank.csv", "x_mm,y_mm\n20,10\n80,10\n110,130\n20,130\n");
  std::string text =
      with(sound_case(), "width = \"90 mm\"\nheight = \"120 mm\"",
           "shape = \"outline\"\nfile = \"tank.csv\"");
  const mesh::Tank tank = read_text(text).content.section.tank;
  CHECK(tank.shape == mesh::Tank::Shape::outline);
  const mesh::Box box = mesh::bounding_box(tank.drawn);
  CHECK_THAT(box.low.norm(), WithinAbs(0.0, 1e-16));
  CHECK_THAT(box.high.x(), WithinRel(0.09, kRounding));
  CHECK_THAT(box.high.y(), WithinRel(0.12, kRounding));
  CHECK_THAT(tank.level, WithinRel(0.1, kRounding));
  put_beside_case("two.csv",
                  "x_mm,y_mm\n0,0\n90,0\n90,120\n0,120\n\n"
                  "10,10\n10,20\n20,20\n20,10\n");
  struct Slip {
    const char* piece;
    const char* slip;
    const char* says;
  };
  const std::vector<Slip> slips{
      {"file = \"tank.csv\"", "", "tank.file: is missing"},
      {"tank.csv", "two.csv", "tank.file: holds 2 outlines"},
      {"tank.csv", "../tank.csv", "tank.file: \"../tank.csv\" leaves"},
      {"file =", "width = \"90 mm\"\nfile =", "tank.width: a drawn tank's"},
      {"level = \"100 mm\"", "", "tank.level: is missing"},
      {"level = \"100 mm\"", "volume = \"1 l\"", "tank.volume: a drawn"},
      {"\"100 mm\"", "\"121 mm\"", "would stand 121 mm high"},
      {"shape = \"outline\"",
       "shape = \"box\"\nwidth = \"9 cm\"\n"
       "height = \"12 cm\"",
       "tank.file: serves with shape = \"outline\""},
      {"schema = 1", "schema = 1\nsection = \"axisymmetric\"",
       "is not a body of revolution"},
  };
  for (const Slip& s : slips) {
    CAPTURE(s.slip);
    const auto lines = problems_in(with(text, s.piece, s.slip));
    REQUIRE_FALSE(lines.empty());
    CHECK_THAT(lines.front(), Contains(s.says));
  }
  text = with(text, "schema = 1", "schema = 1\nview = \"plan\"");
  CHECK_THAT(only_problem(text), Contains("a view from above has none"));
  CHECK_NOTHROW(read_text(with(text, "level = \"100 mm\"\n", "")));
}
