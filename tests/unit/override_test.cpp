#include "case_text.hpp"
#include "io/case_file.hpp"

#include <catch2/catch.hpp>

using namespace thinspot;
using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;
using Catch::Matchers::WithinRel;

namespace {

constexpr double kRounding = 1e-14;

solver::Case set(const std::vector<std::string>& overrides) {
  return read_text(sound_case(), overrides).content;
}

std::string refused(const std::string& override_text) {
  return only_problem(sound_case(), {override_text});
}

}  // namespace

TEST_CASE("An override replaces values and adds missing ones", "[override]") {
  CHECK_THAT(
      set({"part.diameter=25 mm"}).section.solids[0].sizes.at("diameter"),
      WithinRel(0.025, kRounding));
  CHECK_THAT(set({" part.diameter = \"25 mm\" "})
                 .section.solids[0]
                 .sizes.at("diameter"),
             WithinRel(0.025, kRounding));
  CHECK_THAT(set({"anode.sheet.gap=20 mm"}).section.solids[1].gap,
             WithinRel(0.02, kRounding));
  CHECK(set({"step.1.duration=1 h"}).steps[0].duration.value == 3600);
  CHECK_THAT(*set({"target.thickness=10 um"}).target.thickness,
             WithinRel(1e-5, kRounding));
  CHECK(set({"title=2024"}).title == "2024");
  CHECK(set({"solution.efficiency=0.9"}).solution.efficiency.value == 0.9);
  CHECK(set({"target.faces=[\"left\", \"right\"]"}).target.faces ==
        std::vector<std::string>{"left", "right"});
  // The last one holds.
  CHECK_THAT(*set({"target.thickness=10 um", "target.thickness=5 um"})
                  .target.thickness,
             WithinRel(5e-6, kRounding));
}

TEST_CASE("An override sets one substance of a recipe", "[override]") {
  const std::string recipe =
      with(sound_case(), "[solution]\n",
           "[solution]\nmade_of = { water = \"1 l\", \"copper sulfate "
           "pentahydrate\" = \"50 g\" }\n");
  const auto copper = [&](const std::vector<std::string>& overrides) {
    const auto content = read_text(recipe, overrides).content;
    return *content.solution.metal_concentration;
  };
  const double once = copper({});
  // Twice the salt in the same water: nearly twice, since it takes up room.
  const double twice =
      copper({"solution.made_of.copper sulfate pentahydrate=100 g"});
  CHECK(twice > 1.9 * once);
  CHECK(twice < 2 * once);
  CHECK(copper({"solution.made_of.sulfuric acid 96 %=20 ml"}) < once);
  CHECK_THAT(only_problem(recipe, {"solution.made_of.unobtainium=1 g"}),
             Contains("unobtainium"));
  CHECK_THAT(only_problem(recipe, {"solution.made_of.=1 g"}),
             Contains("is not a key of this case"));
}

TEST_CASE("An override moves half a point", "[override]") {
  const mesh::Point at = set({"part.at.x=40 mm"}).section.solids[0].at;
  CHECK_THAT(at.x(), WithinRel(0.04, kRounding));
  CHECK_THAT(at.y(), WithinRel(0.05, kRounding));
  CHECK_THAT(refused("anode.sheet.at.x=1 mm"), Contains("set both, as in"));
}

TEST_CASE("An override drops what cannot stand beside it", "[override]") {
  const solver::Supply by_voltage = set({"supply.voltage=1.5 V"}).supply;
  CHECK(by_voltage.voltage);
  CHECK_FALSE(by_voltage.current);
  const solver::Supply back =
      set({"supply.voltage=1.5 V", "supply.current=1 A"}).supply;
  CHECK(back.current);
  CHECK_FALSE(back.voltage);
  const std::vector<std::string> at{"anode.sheet.at=[\"10 mm\", \"50 mm\"]"};
  const mesh::Solid sheet = set(at).section.solids[1];
  CHECK_FALSE(sheet.side);
  CHECK_THAT(sheet.at.x(), WithinRel(0.01, kRounding));
  const solver::Case again =
      set({at[0], "anode.sheet.side=left", "anode.sheet.gap=9 mm"});
  CHECK(again.section.solids[1].side == mesh::Side::left);
  CHECK_THAT(set({"tank.volume=540 ml", "tank.depth=60 mm"}).section.tank.level,
             WithinRel(0.1, 1e-13));
}

TEST_CASE("An address that does not exist is refused with the nearest",
          "[override]") {
  CHECK(refused("part.diamter=3 mm") ==
        "--set: part.diamter: is not a key of this case; is \"part.diameter\" "
        "meant?");
  CHECK_THAT(refused("anode.shed.gap=3 mm"), Contains("\"anode.sheet.gap\""));
  CHECK_THAT(refused("step.2.duration=3 s"), Contains("\"step.1.duration\""));
  CHECK_THAT(refused("part.wall=3 mm"), Contains("is not a key of this case"));
  CHECK_THAT(refused("nonsense"), Contains("has no equals sign"));
  CHECK_THAT(refused("=3"), Contains("is not a key of this case"));
  CHECK_THAT(refused("tank=3"), Contains("is not a key of this case"));
  CHECK_THAT(refused(std::string(2000, 'x')), Contains("is too long"));
  CHECK_THAT(refused("part.at=[[["), Contains("a list stands as"));
}

TEST_CASE("A wrong value is laid at the door of --set", "[override]") {
  CHECK(refused("part.diameter=30") ==
        "--set: part.diameter: 30 is a bare number, without a unit; write \"30 "
        "mm\", in quotes, if that is meant");
  CHECK_THAT(refused("part.diameter="), StartsWith("--set: part.diameter: is"));
  CHECK_THAT(refused("part.diameter=\"30\""), StartsWith("--set: part.diam"));
  CHECK_THAT(refused("part.at=[\"1\", \"2 mm\"]"),
             StartsWith("--set: part.at: \"1\" has no unit"));
  CHECK_THAT(refused("supply.current=nan A"), Contains("not a finite number"));
  CHECK_THAT(refused("supply.current=nan"), Contains("is a bare number"));
  CHECK_THAT(refused("part.diameter=1 1/2 in"), Contains("write \"1.5 in\""));
  CHECK_THAT(refused("target.faces=left"), Contains("is not a list of texts"));
}

TEST_CASE("A substance that is no text is shown as text", "[override]") {
  const std::string text =
      with(sound_case(), "metal = \"copper\"",
           "metal = \"copper\"\nmade_of = { water = \"1 l\" }");
  CHECK_THAT(only_problem(text, {"solution.made_of.wat\xCE\xCE=600 ml"}),
             StartsWith("--set: \"solution.made_of.wat??\": "));
}

TEST_CASE("A name may hold dots", "[override]") {
  const std::string text = with(sound_case(), "\"sheet\"", "\"sheet 0.5 mm\"");
  CHECK_THAT(read_text(text, {"anode.sheet 0.5 mm.gap=20 mm"})
                 .content.section.solids[1]
                 .gap,
             WithinRel(0.02, kRounding));
}
