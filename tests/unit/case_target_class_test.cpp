#include "case_text.hpp"

#include "io/library.hpp"
#include "io/thickness_classes.hpp"

#include <catch2/catch.hpp>

#include <map>

using namespace thinspot;
using Catch::Matchers::Contains;
using tests::only_problem;
using tests::read_text;
using tests::sound_case;

namespace {

std::string asked(const std::string& lines) {
  return sound_case() + "[target]\n" + lines;
}

}  // namespace

TEST_CASE("a class of a standard is a thickness in µm", "[target]") {
  // ASTM B633, Table 2, as a data sheet quotes it.
  for (const auto& [name, um] : std::map<std::string, double>{{"Fe/Zn 25", 25},
                                                              {"Fe/Zn 12", 12},
                                                              {"Fe/Zn 8", 8},
                                                              {"Fe/Zn 5", 5}}) {
    CAPTURE(name);
    const auto file = read_text(
        asked("standard = \"ASTM B633\"\nclass = \"" + name + "\"\n"));
    const solver::Target& t = file.content.target;
    REQUIRE(t.thickness);
    CHECK(*t.thickness == Approx(um * 1e-6));
    CHECK(t.class_metal == "zinc");
    CHECK_THAT(t.thickness_source, Contains("seen in a data sheet"));
  }
  const auto squeezed =
      read_text(asked("standard = \"astm b633\"\nclass = \"fe/zn8\"\n"));
  CHECK(*squeezed.content.target.thickness == Approx(8e-6));
  CHECK(squeezed.content.target.thickness_class == "Fe/Zn 8");
}

TEST_CASE("a class that there is not is refused with the near one",
          "[target]") {
  CHECK_THAT(only_problem(asked("standard = \"ASTM B633\"\n")),
             Contains("target.class: is missing"));
  CHECK_THAT(only_problem(asked("class = \"Fe/Zn 8\"\n")),
             Contains("target.standard: is missing"));
  CHECK_THAT(
      only_problem(asked("standard = \"ASTM B634\"\nclass = \"Fe/Zn 8\"\n")),
      Contains("not in the library") && Contains("ASTM B"));
  CHECK_THAT(
      only_problem(asked("standard = \"ASTM B633\"\nclass = \"Fe/Zn 9\"\n")),
      Contains("not a class of ASTM B633") && Contains("Fe/Zn"));
  CHECK_THAT(only_problem(asked("thickness = \"8 um\"\nstandard = \"ASTM "
                                "B633\"\nclass = \"Fe/Zn 8\"\n")),
             Contains("target.thickness") && Contains("give one of"));
}

TEST_CASE("every class is whole, and its number is its thickness",
          "[library]") {
  const auto all = io::read_thickness_classes(io::library_folder());
  CHECK(all.size() >= 50);
  std::map<std::string, int> metals;
  for (const io::ThicknessClass& c : all) {
    CAPTURE(c.standard, c.name);
    ++metals[c.metal];
    const bool told = c.source.find("seen") != std::string::npos ||
                      c.source.find("glimpsed") != std::string::npos ||
                      c.source.find("from memory") != std::string::npos;
    CHECK(told);
    CHECK_FALSE(c.edition.empty());
    // Where the designation holds a number, it is the µm: ISO 2064, ISO 27830.
    const std::size_t at = c.name.find_first_of("0123456789");
    if (at != std::string::npos && c.standard != "JIS H 8617")
      CHECK(c.thickness * 1e6 == Approx(std::stod(c.name.substr(at))));
  }
  CHECK(metals.size() == 4);
  for (const char* metal : {"copper", "nickel", "zinc", "tin"})
    CHECK(metals[metal] >= 4);
}

TEST_CASE("setting a thickness drops the class, and a class the thickness",
          "[target]") {
  const std::string text =
      asked("standard = \"ASTM B633\"\nclass = \"Fe/Zn 8\"\n");
  const auto thick = read_text(text, {"target.thickness=3 um"});
  CHECK(*thick.content.target.thickness == Approx(3e-6));
  CHECK(thick.content.target.standard.empty());
}
