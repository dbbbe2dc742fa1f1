// Clips, shields, thieves and floating metal: each key in its field.
#include "case_text.hpp"
#include "io/case_file.hpp"

#include <catch2/catch.hpp>

#include <numbers>

using namespace thinspot;
using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr double kRounding = 1e-13;

const std::string kPlate =
    "shape = \"plate\"\nwidth = \"2 mm\"\nheight = \"10 mm\"\n";

std::string clip(const std::string& more) {
  return and_also("[[clip]]\nname = \"top\"\n" + kPlate + more);
}

std::string thief(const std::string& more) {
  return and_also("[[thief]]\nname = \"bar\"\n" + kPlate +
                  "side = \"right\"\ngap = \"5 mm\"\n" + more);
}

std::string floating(const std::string& more) {
  return and_also("[[floating]]\nname = \"rest\"\n" + kPlate +
                  "at = [\"70 mm\", \"20 mm\"]\n" + more);
}

}  // namespace

TEST_CASE("A clip is read", "[case_file]") {
  const solver::Case c =
      read_text(clip("at = [\"45 mm\", \"69 mm\"]\nturn = \"90 deg\"\n"
                     "contact_resistance = \"20 mohm +- 5 mohm\"\n"))
          .content;
  REQUIRE(c.clips.size() == 1);
  CHECK(c.clips[0].name == "top");
  CHECK_THAT(c.clips[0].contact_resistance.value, WithinRel(0.02, kRounding));
  CHECK_THAT(c.clips[0].contact_resistance.plus_minus,
             WithinRel(0.005, kRounding));
  REQUIRE(c.clips[0].solids.size() == 1);
  const mesh::Solid& solid = c.section.solids.at(c.clips[0].solids[0]);
  CHECK(solid.key == "clip.top");
  CHECK(solid.name == "top");
  CHECK(solid.role == mesh::Role::clip);
  CHECK(solid.copy == 0);
  CHECK_THAT(solid.at.y(), WithinRel(0.069, kRounding));
  CHECK_THAT(solid.turn, WithinRel(std::numbers::pi / 2, kRounding));
  CHECK_THAT(solid.sizes.at("height"), WithinRel(0.01, kRounding));
  // Anodes still find their solid.
  CHECK(c.section.solids.at(c.anodes[0].solid).key == "anode.sheet");
}

TEST_CASE("A clip may stand beside the part without a gap", "[case_file]") {
  const solver::Case c =
      read_text(clip("side = \"above\"\ngap = \"0 mm\"\n")).content;
  // Half the coin and half the clip above its centre, 10 um into it; a gap
  // that is found by bisection.
  CHECK_THAT(c.section.solids.at(c.clips[0].solids[0]).at.y(),
             WithinAbs(0.050 + 0.015 + 0.005 - 10e-6, 1e-9));
  CHECK(c.clips[0].contact_resistance.value == 0);
  CHECK_THAT(only_problem(sound_case(), {"anode.sheet.gap=0 mm"}),
             Contains("1 um .. 10 m"));
}

TEST_CASE("overrides reach clips and masks", "[case_file][override]") {
  const std::string text = clip("at = [\"45 mm\", \"69 mm\"]\n");
  const solver::Case moved = read_text(text, {"clip.top.at.x=47 mm"}).content;
  CHECK_THAT(moved.section.solids.at(1).at.x(), WithinRel(0.047, kRounding));
  const solver::Case beside =
      read_text(text, {"clip.top.side=above", "clip.top.gap=1 mm"}).content;
  CHECK_THAT(beside.section.solids.at(1).at.y(),
             WithinAbs(0.050 + 0.015 + 0.001 + 0.005, 1e-9));
  CHECK_THAT(only_problem(text, {"clip.top.side=above", "clip.top.gap=1 um"}),
             Contains("neither a gap nor a contact"));
  CHECK_THAT(only_problem(text, {"clip.tip.at.x=1 mm"}),
             Contains("\"clip.top.at.x\""));
  const std::string masked = and_also("[[mask]]\nfaces = [\"left\"]\n");
  CHECK(read_text(masked, {"mask.1.faces=[\"right\"]"})
            .content.section.masks.at(0)
            .faces == std::vector<std::string>{"right"});
  const std::vector<std::string> points{"mask.1.from=[\"46 mm\", \"50 mm\"]",
                                        "mask.1.to=[\"46 mm\", \"60 mm\"]"};
  const mesh::Mask mask = read_text(masked, points).content.section.masks.at(0);
  CHECK(mask.faces.empty());
  CHECK(mask.between);
}

TEST_CASE("A shield is a solid and nothing else", "[case_file]") {
  const std::string text =
      and_also("[[shield]]\n" + kPlate + "at = [\"30 mm\", \"50 mm\"]\n");
  const solver::Case c = read_text(text).content;
  REQUIRE(c.section.solids.size() == 3);
  CHECK(c.section.solids[2].role == mesh::Role::shield);
  CHECK(c.section.solids[2].key == "shield.1");
  CHECK_THAT(only_problem(text, {"shield.1.gap=3 mm"}),
             Contains("shield.1.side: is missing"));
  CHECK_THAT(only_problem(with(text, "[[shield]]",
                               "[[shield]]\nresistance = \"1 ohm\"")),
             Contains("shield.1.resistance: is not a key of this table"));
}

TEST_CASE("A thief plates as the part does or by its own slope",
          "[case_file]") {
  const solver::Case plain =
      read_text(thief("resistance = \"0.5 ohm +- 0.1 ohm\"\n")).content;
  REQUIRE(plain.thieves.size() == 1);
  CHECK(plain.thieves[0].name == "bar");
  CHECK(plain.section.solids.at(plain.thieves[0].solid).role ==
        mesh::Role::thief);
  CHECK_THAT(plain.thieves[0].resistance.value, WithinRel(0.5, kRounding));
  CHECK_THAT(plain.thieves[0].resistance.plus_minus, WithinRel(0.1, kRounding));
  CHECK_FALSE(plain.thieves[0].polarization);
  const solver::Case own =
      read_text(thief("polarization_resistance = \"3 ohm cm2\"\n"
                      "polarization_at = \"1 A/dm2\"\n"
                      "polarization_offset = \"0.1 V\"\n"))
          .content;
  REQUIRE(own.thieves[0].polarization);
  CHECK_THAT(own.thieves[0].polarization->resistance.value,
             WithinRel(3e-4, kRounding));
  CHECK_THAT(*own.thieves[0].polarization->at, WithinRel(100.0, kRounding));
  CHECK_THAT(own.thieves[0].polarization->offset.value,
             WithinRel(0.1, kRounding));
  for (const char* alone :
       {"polarization_at = \"1 A/dm2\"\n", "polarization_offset = \"0.1 V\"\n"})
    CHECK_THAT(only_problem(thief(alone)),
               Contains("serves with polarization_resistance only"));
}

TEST_CASE("Floating metal has a slope, its own or the part's", "[case_file]") {
  const solver::Case own =
      read_text(floating("metal = \"steel\"\n"
                         "polarization_resistance = \"5 ohm cm2\"\n"))
          .content;
  REQUIRE(own.floating.size() == 1);
  CHECK(own.floating[0].name == "rest");
  CHECK(own.floating[0].metal == "steel");
  CHECK(own.section.solids.at(own.floating[0].solid).role ==
        mesh::Role::floating);
  CHECK_THAT(own.floating[0].resistance.value, WithinRel(5e-4, kRounding));
  CHECK(own.assumed.empty());
  const solver::Case assumed = read_text(floating("")).content;
  CHECK_THAT(assumed.floating[0].resistance.value,
             WithinRel(2.6e-4, kRounding));
  REQUIRE(assumed.assumed.size() == 1);
  CHECK(assumed.assumed[0].key == "floating.rest.polarization_resistance");
  CHECK(assumed.assumed[0].value == "2.6 ohm cm2");
}

TEST_CASE("Anodes may differ", "[case_file]") {
  const solver::Case c =
      read_text(and_also("[[anode]]\nname = \"mesh\"\n" + kPlate +
                         "side = \"right\"\ngap = \"20 mm\"\nkind = \"inert\"\n"
                         "metal = \"platinized titanium\"\n"
                         "open_circuit_voltage = \"1.5 V\"\n"
                         "polarization_resistance = \"1 ohm cm2\"\n"))
          .content;
  REQUIRE(c.anodes.size() == 2);
  CHECK_FALSE(c.anodes[1].soluble);
  CHECK_THAT(c.anodes[1].open_circuit_voltage.value, WithinRel(1.5, kRounding));
  CHECK(c.anodes[0].open_circuit_voltage.value == 0);
  CHECK(c.section.solids.at(c.anodes[1].solid).key == "anode.mesh");
}

TEST_CASE("What is wrong with a solid beside the part is told", "[case_file]") {
  CHECK_THAT(only_problem(clip("")), StartsWith("case.toml:24: clip.top.at: "
                                                "is missing"));
  CHECK_THAT(only_problem(with(clip("at = [\"45 mm\", \"69 mm\"]\n"), "\"top\"",
                               "\"part.2\"")),
             Contains("is the part itself"));
  CHECK_THAT(only_problem(thief("resistance = \"-1 ohm\"\n")),
             Contains("thief.bar.resistance: \"-1 ohm\" is out of range"));
  CHECK_THAT(only_problem(floating("metal = 7\n")), Contains("not a text"));
  CHECK_THAT(only_problem(with(clip("side = \"above\"\ngap = \"1 mm\"\n"),
                               "width = \"2 mm\"\nheight = \"10 mm\"",
                               "width = \"2 mm\"")),
             Contains("clip.top.height: is missing"));
  CHECK_THAT(only_problem(and_also("[clip]\nname = \"top\"\n")),
             Contains("write it as [[clip]]"));
}
