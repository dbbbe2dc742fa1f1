#include "tests/cli/program.hpp"
#include "tests/cli/shipped_cases.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace thinspot::tests;
using Catch::Matchers::Contains;

namespace {

Run bath(std::vector<std::string> arguments) {
  const Scratch scratch;
  arguments.insert(arguments.begin(), "bath");
  return run_thinspot(scratch.path(), arguments);
}

}  // namespace

TEST_CASE("bath tells what to weigh for a volume") {
  const Run run = bath({"--solution", "acid copper", "--volume", "500 ml"});
  REQUIRE(run.status == 0);
  // Middle of 195 to 248 g/l in half a litre: 110.75 g.
  CHECK_THAT(run.out, Contains("111 g copper sulfate pentahydrate"));
  CHECK_THAT(run.out, Contains("into the water, never the other way round"));
  for (const std::string& line : lines_of(run.out)) CHECK(line.size() < 90);
}

TEST_CASE("bath reckons a case by Faraday's law") {
  const Run run =
      bath({shipped_case("bracket_from_recipe").string(), "--json"});
  REQUIRE(run.status == 0);
  const auto plan = nlohmann::json::parse(run.out);
  // 90 g of 249.685 g/mol hold 22.905 g of copper, at 1.18549 g an ampere hour.
  CHECK(plan["metal_g"].get<double>() == Approx(22.905).epsilon(1e-4));
  CHECK(plan["charge_Ah"].get<double>() == Approx(19.321).epsilon(1e-4));
  CHECK(
      plan["run"]["taken_g"].get<double>() ==
      Approx(1.185494 * plan["run"]["charge_Ah"].get<double>()).epsilon(1e-4));
  // 2 x 60 x 40 mm of copper at 8.96 g/cm3.
  CHECK(plan["anodes"][0]["mass_g"].get<double>() ==
        Approx(43.008).epsilon(1e-4));
}

TEST_CASE("bath counts runs where nothing gives metal back") {
  const Run run = bath({shipped_case("bracket_from_recipe").string(), "--json",
                        "--set", "anode.left sheet.kind=inert", "--set",
                        "anode.left sheet.open_circuit_voltage=1.5 V"});
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
  const auto plan = nlohmann::json::parse(run.out);
  const double taken = plan["run"]["taken_g"];
  const int runs = plan["runs_to_80_percent"];
  CHECK(runs * taken <= 0.2 * 22.905);
  CHECK((runs + 1) * taken > 0.2 * 22.905);
}

TEST_CASE("bath dissolves nickel into acid") {
  const Run run = bath({"--dissolve", "nickel", "--into", "vinegar",
                        "--current", "0.3 A", "--time", "4 h"});
  REQUIRE(run.status == 0);
  CHECK_THAT(run.out, Contains("1.2 A h"));
  // 60 to 100 % of 1.314 g.
  CHECK_THAT(run.out, Contains("0.79 to 1.3 g of nickel"));
}

TEST_CASE("bath tells no recipe of what holds cyanide") {
  const Run run = bath({"--solution", "silver", "--volume", "1 l"});
  REQUIRE(run.status == 0);
  CHECK_THAT(run.out, Contains("a shop with a licence"));
  CHECK(run.out.find("Top up") == std::string::npos);
}

TEST_CASE("bath says in one line what is wrong") {
  const auto complaint = [](const std::vector<std::string>& arguments) {
    const Run run = bath(arguments);
    CAPTURE(run.err);
    CHECK(run.status == 2);
    CHECK(run.out.empty());
    CHECK(lines_of(run.err).size() == 1);
    return run.err;
  };
  CHECK_THAT(complaint({}), Contains("no case file"));
  CHECK_THAT(complaint({"--solution", "acid coper"}),
             Contains("is \"acid copper\" meant?"));
  CHECK_THAT(complaint({"--solution", "acid copper", "--volume", "5 m"}),
             Contains("--volume"));
  CHECK_THAT(complaint({"--dissolve", "nickel", "--current", "1 A"}),
             Contains("--time"));
  CHECK_THAT(complaint({"--dissolve", "nickel", "--into", "salt", "--current",
                        "1 A", "--time", "1 h"}),
             Contains("is no acid"));
}
