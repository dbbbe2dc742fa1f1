// Stop-off lacquer: on what, and which stretch of it.
#include "case_text.hpp"
#include "io/case_file.hpp"

#include <catch2/catch.hpp>

using namespace thinspot;
using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinRel;

namespace {

constexpr double kRounding = 1e-13;

std::string masked(const std::string& lines) {
  return and_also("[[mask]]\nname = \"lacquer\"\n" + lines);
}

}  // namespace

TEST_CASE("A mask names faces or two points", "[case_file]") {
  const solver::Case faces =
      read_text(masked("faces = [\"left\", \"upper rim\"]\n")).content;
  REQUIRE(faces.section.masks.size() == 1);
  const mesh::Mask& mask = faces.section.masks[0];
  CHECK(mask.key == "mask.lacquer");
  CHECK(mask.on == "part");
  CHECK(mask.faces == std::vector<std::string>{"left", "upper rim"});
  CHECK_FALSE(mask.between);

  const solver::Case points =
      read_text(masked("on = \"anode.sheet\"\nfrom = [\"9 mm\", \"20 mm\"]\n"
                       "to = [\"8 mm\", \"40 mm\"]\n"))
          .content;
  const mesh::Mask& stretch = points.section.masks.at(0);
  CHECK(stretch.on == "anode.sheet");
  CHECK(stretch.faces.empty());
  REQUIRE(stretch.between);
  CHECK_THAT((*stretch.between)[0].x(), WithinRel(0.009, kRounding));
  CHECK_THAT((*stretch.between)[1].y(), WithinRel(0.040, kRounding));
}

TEST_CASE("Each wrong mask is named for what it is", "[case_file]") {
  struct Slip {
    const char* lines;
    const char* says;
  };
  const std::vector<Slip> slips{
      {"", "mask.lacquer.faces: is missing"},
      {"faces = [\"lefft\"]\n",
       "\"lefft\" is not a face of the part; is \"left\" meant?"},
      {"on = \"anode.sheet\"\nfaces = [\"upper rim\"]\n",
       "\"upper rim\" is not a face of anode.sheet; it has "},
      {"on = \"anode.shet\"\nfaces = [\"left\"]\n",
       "mask.lacquer.on: \"anode.shet\" is not a solid of this case; is "
       "\"anode.sheet\" meant?"},
      {"on = \"everything in sight\"\nfaces = [\"left\"]\n", "or an address"},
      {"on = 3\nfaces = [\"nowhere\"]\n", "mask.lacquer.on: is a bare number"},
      {"faces = []\n", "is not a list of texts"},
      {"faces = \"left\"\n", "is not a list of texts"},
      {"faces = [\"left\"]\nfrom = [\"1 mm\", \"1 mm\"]\n",
       "give faces, or from and to"},
      {"from = [\"1 mm\", \"1 mm\"]\n", "mask.lacquer.to: is missing"},
      {"to = [\"1 mm\", \"1 mm\"]\n", "mask.lacquer.from: is missing"},
      {"from = [\"1 mm\", \"1 mm\"]\nto = [\"0.1 cm\", \"1 mm\"]\n",
       "is the same point as from"},
      {"from = [\"nan mm\", \"1 mm\"]\nto = [\"1 mm\", \"1 mm\"]\n",
       "mask.lacquer.from: "},
      {"faces = [\"left\", \"right\", \"upper rim\", \"lower rim\"]\n",
       "leaves nothing of the part bare"},
  };
  for (const Slip& s : slips) {
    CAPTURE(s.lines);
    CHECK_THAT(only_problem(masked(s.lines)), Contains(s.says));
  }
}

TEST_CASE("Two masks together must leave something bare", "[case_file]") {
  const std::string text = masked(
      "faces = [\"left\", \"right\"]\n[[mask]]\n"
      "faces = [\"upper rim\", \"lower rim\"]\n");
  CHECK_THAT(only_problem(text), Contains("mask.2.faces: leaves nothing"));
  CHECK_NOTHROW(read_text(text, {"mask.2.faces=[\"upper rim\"]"}));
}

TEST_CASE("A shield needs no mask", "[case_file]") {
  const std::string shield =
      "[[shield]]\nname = \"baffle\"\nshape = \"plate\"\nwidth = \"1 mm\"\n"
      "height = \"9 mm\"\nat = [\"30 mm\", \"50 mm\"]\n";
  CHECK_THAT(only_problem(and_also(shield + "[[mask]]\non = \"shield.baffle\"\n"
                                            "faces = [\"left\"]\n")),
             Contains("carries no current"));
}
