#include "io/case_file.hpp"
#include "case_text.hpp"
#include "mesh/errors.hpp"
#include "mesh/section.hpp"

#include <catch2/catch.hpp>

#include <numbers>

using namespace thinspot;
using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;
using Catch::Matchers::WithinRel;

namespace {

constexpr double kRounding = 1e-14;

/// The assumption about a key; fails the test where there is none.
solver::Assumption assumed(const solver::Case& c, const std::string& key) {
  for (const solver::Assumption& a : c.assumed)
    if (a.key == key) return a;
  FAIL("nothing is assumed about " << key);
  return {};
}

bool is_assumed(const solver::Case& c, const std::string& key) {
  for (const solver::Assumption& a : c.assumed)
    if (a.key == key) return true;
  return false;
}

const std::string kSlope =
    "polarization_resistance = \"2.6 ohm cm2\"\n"
    "polarization_at = \"2 A/dm2\"\n";

}  // namespace

TEST_CASE("A case is read into SI units", "[case_file]") {
  const io::CaseFile file = read_text(sound_case());
  const solver::Case& c = file.content;
  CHECK(c.title == "case");
  CHECK(c.section.cut == mesh::Cut::side);
  CHECK_THAT(c.section.tank.width, WithinRel(0.09, kRounding));
  CHECK_THAT(c.section.tank.level, WithinRel(0.1, kRounding));
  CHECK(c.solution.metal.name == "copper");
  CHECK(c.solution.metal.electrons == 2);
  CHECK_THAT(c.solution.conductivity.value, WithinRel(20.0, kRounding));
  CHECK_THAT(c.solution.conductivity.plus_minus, WithinRel(3.0, kRounding));
  CHECK(c.solution.efficiency.value == 0.98);
  REQUIRE(c.section.solids.size() == 2);
  const mesh::Solid& part = c.section.solids[0];
  CHECK(part.role == mesh::Role::part);
  CHECK(part.key == "part");
  CHECK_THAT(part.sizes.at("edge_radius"), WithinRel(3e-4, kRounding));
  CHECK_THAT(part.at.x(), WithinRel(0.045, kRounding));
  const mesh::Solid& sheet = c.section.solids[1];
  CHECK(sheet.key == "anode.sheet");
  CHECK(sheet.name == "sheet");
  CHECK(sheet.side == mesh::Side::left);
  CHECK_THAT(sheet.gap, WithinRel(0.035, kRounding));
  REQUIRE(c.anodes.size() == 1);
  CHECK(c.anodes[0].solid == 1);
  CHECK(c.anodes[0].metal == "copper");
  CHECK(c.anodes[0].soluble);
  CHECK_THAT(c.cathode.resistance.value, WithinRel(2.6e-4, kRounding));
  CHECK_THAT(*c.cathode.at, WithinRel(200.0, kRounding));
  CHECK_THAT(c.supply.current->value, WithinRel(0.33, kRounding));
  CHECK_FALSE(c.supply.voltage);
  REQUIRE(c.steps.size() == 1);
  CHECK(c.steps[0].duration.value == 2400);
  CHECK(c.accuracy.tolerance == 1e-3);
  CHECK(c.assumed.empty());
  CHECK(file.lines.at("part.diameter") == 12);
  CHECK(file.lines.at("anode.sheet.gap") == 22);
}

TEST_CASE("The shipped cases read and fit their tanks", "[case_file]") {
  for (const char* name :
       {"token_one_sheet", "token_two_sheets", "rod_in_tube"}) {
    CAPTURE(name);
    const std::string path =
        std::string(THINSPOT_SOURCE_DIR "/cases/") + name + ".toml";
    const solver::Case c = io::read_case(path).content;
    CHECK_NOTHROW(mesh::build_section(c.section));
    CHECK_FALSE(c.title.empty());
    CHECK(c.target.thickness);
  }
}

TEST_CASE("All problems come at once, in order, each with its line",
          "[case_file]") {
  std::string text = with(sound_case(), "\"90 mm\"", "90");
  text = with(text, "\"100 mm\"", "\"130 mm\"");
  text = with(text, "thickness", "thikness");
  text = with(text, "[supply]\ncurrent", "[suply]\ncurrent");
  const std::vector<std::string> lines = problems_in(text);
  CAPTURE(lines);
  REQUIRE(lines.size() == 5);
  CHECK_THAT(lines[0], StartsWith("case.toml: supply: is missing"));
  CHECK(lines[1] ==
        "case.toml:3: tank.width: 90 is a bare number, without a unit; write "
        "\"90 mm\", in quotes, if that is meant");
  CHECK_THAT(lines[2], StartsWith("case.toml:10: part.thickness: is missing"));
  CHECK(lines[3] ==
        "case.toml:13: part.thikness: is not a key of this table; is "
        "\"thickness\" meant?");
  CHECK_THAT(lines[4], StartsWith("case.toml:27: suply:") &&
                           Contains("is \"supply\" meant?"));
}

TEST_CASE("A problem of the section finds its line", "[case_file]") {
  const io::CaseFile file =
      read_text(with(sound_case(), "gap = \"35 mm\"", "gap = \"60 mm\""));
  try {
    mesh::build_section(file.content.section);
    FAIL("a sheet beyond the wall was taken");
  } catch (const InputError& error) {
    const Problem p = io::located(error, file).problems().front();
    // The solid as a whole: the line of its table.
    CHECK_THAT(p.key, StartsWith("anode.sheet"));
    CHECK_THAT(p.place, Catch::EndsWith("case.toml:16"));
  }
}

TEST_CASE("Each wrong line is named for what it is", "[case_file]") {
  struct Slip {
    const char* piece;
    const char* slip;
    const char* says;
  };
  const std::vector<Slip> slips{
      {"schema = 1", "schema = 2", "case.toml:1: schema: 2 is not known"},
      {"schema = 1", "", "schema: is missing"},
      {"schema = 1", "schema = 1\nsection = \"planer\"", "planar or axisymm"},
      {"\"120 mm\"", "\"12 m\"", "1 um .. 10 m"},
      {"\"120 mm\"", "\"-1 mm\"", "out of range"},
      {"\"100 mm\"", "\"121 mm\"", "would stand 121 mm high"},
      {"level = \"100 mm\"", "", "tank.level: is missing"},
      {"\"copper\"", "\"coper\"", "is \"copper\" meant?"},
      {"\"copper\"", "\"unobtainium\"", "it has copper, "},
      {"metal =", "use = \"acid coper\"\nmetal =", "\"acid copper\" meant?"},
      {"20 S/m", "2000 S/m", "1e-6 S/m .. 1000 S/m"},
      {"+- 3 S/m", "+- 20 S/m", "reaches down to nothing"},
      {"0.98", "1.01", "0.01 % .. 100 %"},
      {"0.98", "0", "0.01 % .. 100 %"},
      {"0.98", "nan", "out of range"},
      {"0.98", "98", "out of range"},
      {"\"coin\"", "\"coine\"", "is \"coin\" meant?"},
      {"\"2.4 mm\"", "\"2.4 mm +- 0.1 mm\"", "a tolerance, which is not used"},
      {"\"0.3 mm\"", "\"2 mm\"", "part.edge_radius: "},
      {"\"45 mm\", ", "", "part.at: is not a list of two"},
      {"\"45 mm\"", "45", "part.at: 45 is a bare number"},
      {"at = [\"45 mm\", \"50 mm\"]", "", "part.at: is missing"},
      {"gap = \"35 mm\"", "", "anode.sheet.gap: is missing"},
      {"side = \"left\"", "", "anode.sheet.side: is missing"},
      {"side = \"left\"", "side = \"west\"", "left, right, above or below"},
      {"side =", "at = [\"1 mm\", \"1 mm\"]\nside =", "give at, or side and"},
      {"gap =", "kind = \"inert\"\ngap =", "open_circuit_voltage: is missing"},
      {"gap =", "metal = \"graphite\"\ngap =", "anode.sheet.kind: is missing"},
      {"\"sheet\"", "\"part\"", "is the part itself"},
      {"\"sheet\"", "\"a=b\"", "anode.1.name: \"a=b\" holds an equals"},
      {"\"sheet\"", "\"\"", "anode.1.name: \"\" is empty"},
      {"\"sheet\"", "7", "anode.1.name: is a bare number, not a text"},
      {"\"2.6 ohm cm2\"", "\"2e6 ohm cm2\"", "0 ohm cm2 .. 1e6 ohm cm2"},
      {"polarization_resistance = \"2.6 ohm cm2\"\n", "", "serves with pola"},
      {"[cathode]", "[cathode]\nlaw = \"bent\"", "it takes linear"},
      {"current = \"0.33 A\"", "", "supply.current: is missing; give one of"},
      {"\"0.33 A\"", "\"0.33 A\"\nvoltage = \"1 V\"", "current is given as w"},
      {"current = \"0.33 A\"", "voltage = \"7 V\"\nvoltage_limit = \"6 V\"",
       "below the voltage itself, 7 V"},
      {"\"40 min\"", "\"0 s\"", "1 ms .. 3650 day"},
      {"[[step]]", "[step]", "write it as [[step]]"},
      {"[supply]", "[target]\nfaces = [\"upper rym\"]\n[supply]",
       "is \"upper rim\" meant?"},
      {"[supply]",
       "[target]\nworking_range = [\"4 A/dm2\", \"1 A/dm2\"]\n"
       "[supply]",
       "runs backwards"},
      {"[supply]", "[accuracy]\ntolerance = \"0 %\"\n[supply]", "0.001 % .. 2"},
      {"[supply]", "[[wire]]\ndiameter = \"1 mm\"\n[supply]",
       "case.toml:27: wire.1.wetted: is missing"},
      {"[supply]", "[remark]\ngoal = \"time\"\n[supply]", "known are schema"},
  };
  for (const Slip& s : slips) {
    CAPTURE(s.piece, s.slip);
    CHECK_THAT(only_problem(with(sound_case(), s.piece, s.slip)),
               Contains(s.says));
  }
}

TEST_CASE("Names are each their own", "[case_file]") {
  const std::string second =
      "[[anode]]\nname = \"sheet\"\nshape = \"plate\"\nwidth = \"2 mm\"\n"
      "height = \"70 mm\"\nside = \"right\"\ngap = \"35 mm\"\n[cathode]";
  CHECK_THAT(only_problem(with(sound_case(), "[cathode]", second)),
             StartsWith("case.toml:25: anode.2.name: anode.sheet is there"));
  const std::string unnamed = with(second, "name = \"sheet\"\n", "");
  const solver::Case c =
      read_text(with(sound_case(), "[cathode]", unnamed)).content;
  REQUIRE(c.anodes.size() == 2);
  CHECK(c.anodes[1].name == "2");
  CHECK(c.section.solids[2].key == "anode.2");
  const std::string sixty(60, 'a');
  CHECK(read_text(with(sound_case(), "sheet", sixty)).content.anodes[0].name ==
        sixty);
  CHECK_THAT(only_problem(with(sound_case(), "sheet", sixty + "a")),
             Contains("1 to 60 printable characters"));
}

TEST_CASE("A radius of the part left out is assumed", "[case_file]") {
  std::string text = with(sound_case(), "edge_radius = \"0.3 mm\"\n", "");
  const solver::Case c = read_text(text).content;
  CHECK_THAT(c.section.solids[0].sizes.at("edge_radius"),
             WithinRel(2e-4, kRounding));
  CHECK(assumed(c, "part.edge_radius").value == "0.2 mm");
  // Not more than a thin part has room for.
  text = with(text, "\"2.4 mm\"", "\"0.4 mm\"");
  const solver::Case thin = read_text(text).content;
  CHECK_THAT(thin.section.solids[0].sizes.at("edge_radius"),
             WithinRel(1e-4, kRounding));
  CHECK(assumed(thin, "part.edge_radius").value == "0.1 mm");
  // The sheet's corners are sharp, and that is no assumption.
  CHECK_FALSE(c.section.solids[1].sizes.contains("corner_radius"));
  CHECK_FALSE(is_assumed(c, "anode.sheet.corner_radius"));
  // Said to be sharp is not assumed.
  CHECK_FALSE(is_assumed(
      read_text(with(sound_case(), "\"0.3 mm\"", "\"0 mm\"")).content,
      "part.edge_radius"));
}

TEST_CASE("The cathode's slope left out is that of a Tafel law",
          "[case_file]") {
  const std::string text = with(sound_case(), kSlope, "");
  SECTION("at the current density that is set") {
    const solver::Case c =
        read_text(text, {"supply.current_density=2 A/dm2"}).content;
    // 51.4 mV / 200 A/m2
    CHECK_THAT(c.cathode.resistance.value, WithinRel(2.57e-4, 1e-12));
    CHECK_THAT(c.cathode.resistance.plus_minus, WithinRel(1.542e-4, 1e-12));
    CHECK_THAT(*c.cathode.at, WithinRel(200.0, kRounding));
    CHECK(assumed(c, "cathode.polarization_resistance").value ==
          "2.57 ohm cm2 +- 60 % at 2 A/dm2");
  }
  SECTION("at the current over the coin's own area") {
    // Faces and rim of a disc with sharp edges, within the 1 % that edges
    // rounded by 0.3 mm take off.
    const double area = 2 * std::numbers::pi * 0.015 * (0.015 + 0.0024);
    const solver::Case c = read_text(text).content;
    CHECK_THAT(*c.cathode.at, WithinRel(0.33 / area, 0.02));
    CHECK_THAT(c.cathode.resistance.value * *c.cathode.at,
               WithinRel(0.0514, 1e-12));
  }
  SECTION("at the current over the area given") {
    const solver::Case c = read_text(text, {"part.area=0.33 dm2"}).content;
    CHECK_THAT(*c.cathode.at, WithinRel(100.0, 1e-12));
    CHECK_THAT(*c.part_area, WithinRel(3.3e-3, kRounding));
  }
  SECTION("at 1 A/dm2 where a voltage is set") {
    const solver::Case c = read_text(text, {"supply.voltage=1 V"}).content;
    CHECK(*c.cathode.at == 100);
  }
}

TEST_CASE("Other things left out are assumed and listed", "[case_file]") {
  std::string text = with(sound_case(), "efficiency = 0.98\n", "");
  text = with(text, "polarization_resistance = \"0 ohm cm2\"\n", "");
  const solver::Case copper = read_text(text).content;
  CHECK(copper.solution.efficiency.value == 1);
  CHECK(copper.solution.efficiency.plus_minus == 0.02);
  CHECK(assumed(copper, "solution.efficiency").value == "100 % +- 2 %");
  CHECK(assumed(copper, "anode.sheet.polarization_resistance").value ==
        "0 ohm cm2");
  const solver::Case nickel =
      read_text(with(text, "\"copper\"", "\"nickel\"")).content;
  CHECK(nickel.solution.efficiency.plus_minus == 0.05);
  CHECK(nickel.anodes[0].metal == "nickel");
}
