// [plan]: what is read of it, and what is refused.
#include "case_text.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <numbers>

using namespace thinspot;
using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;
using Catch::Matchers::WithinRel;

namespace {

constexpr double kRounding = 1e-12;

std::string planning(const std::string& lines) {
  return sound_case() + "[plan]\n" + lines;
}

solver::PlanWishes wishes(const std::string& lines) {
  return read_text(planning(lines)).content.plan;
}

std::string refused(const std::string& lines) {
  return only_problem(planning(lines));
}

std::string vary(const std::string& entry) {
  return "vary = { " + entry + " }\n";
}

}  // namespace

TEST_CASE("Without [plan] everything of it is as left out", "[plan]") {
  const solver::PlanWishes none = read_text(sound_case()).content.plan;
  CHECK(none.goal == solver::PlanGoal::time);
  CHECK_FALSE(none.most_turns);
  CHECK_FALSE(none.longest);
  CHECK(none.handling == 60);
  CHECK(none.vary.empty());
  CHECK(none.seed == 1);
  CHECK(wishes("").goal == solver::PlanGoal::time);
}

TEST_CASE("Every key of [plan] is read, in SI", "[plan]") {
  const solver::PlanWishes w = wishes(
      "goal = \"evenness\"\nmax_turns = 2\nmax_anodes = 3\n"
      "max_time = \"2 h\"\nhandling = \"90 s\"\nmove_clip = true\nseed = 7\n"
      "shield = { width = \"2 mm\", height = \"30 mm\", count = 2 }\n"
      "thief = { diameter = \"2 mm\" }\n" +
      vary("\"anode.sheet.gap\" = \"15 mm .. 60 mm\", \"part.at.y\" = "
           "\"4 .. 6 cm\", \"anode.sheet.height\" = \"2 in +- 0.5 in\", "
           "\"tank.level\" = \"90 mm .. 120 mm\", "
           "\"supply.current\" = \"0.1 A .. 800 mA\""));
  CHECK(w.goal == solver::PlanGoal::evenness);
  CHECK(w.most_turns == 2);
  CHECK(w.most_anodes == 3);
  CHECK(w.longest == 7200);
  CHECK(w.handling == 90);
  CHECK(w.move_clip);
  CHECK(w.seed == 7);
  REQUIRE(w.shield);
  CHECK(w.shield->count == 2);
  CHECK(w.shield->solid.shape == "plate");
  CHECK(w.shield->solid.role == mesh::Role::shield);
  CHECK_THAT(w.shield->solid.sizes.at("height"), WithinRel(0.03, kRounding));
  REQUIRE(w.thief);
  CHECK(w.thief->count == 1);
  CHECK(w.thief->solid.shape == "rod");
  CHECK(w.thief->solid.role == mesh::Role::thief);
  const struct {
    const char* key;
    double low, high;
  } expected[] = {{"anode.sheet.gap", 0.015, 0.06},
                  {"part.at.y", 0.04, 0.06},
                  {"anode.sheet.height", 0.0381, 0.0635},
                  {"tank.level", 0.09, 0.12},
                  {"supply.current", 0.1, 0.8}};
  REQUIRE(w.vary.size() == std::size(expected));
  for (const auto& e : expected) {
    const auto found =
        std::find_if(w.vary.begin(), w.vary.end(),
                     [&](const solver::Vary& v) { return v.key == e.key; });
    CAPTURE(e.key);
    REQUIRE(found != w.vary.end());
    CHECK_THAT(found->low, WithinRel(e.low, kRounding));
    CHECK_THAT(found->high, WithinRel(e.high, kRounding));
  }
}

TEST_CASE("Angles vary too, and tables of their own are read", "[plan]") {
  const auto w = read_text(planning("[plan.vary]\n\"part.turn\" = \"-10 deg .. "
                                    "10 deg\"\n[plan.thief]\ndiameter = \"3 "
                                    "mm\"\n"))
                     .content.plan;
  REQUIRE(w.vary.size() == 1);
  CHECK_THAT(w.vary[0].high, WithinRel(std::numbers::pi / 18, kRounding));
  CHECK(w.thief);
}

TEST_CASE("What --set says reaches [plan], also where there is none",
          "[plan]") {
  const auto content = [](const std::vector<std::string>& overrides) {
    return read_text(sound_case(), overrides).content;
  };
  CHECK(content({"plan.goal=metal"}).plan.goal == solver::PlanGoal::metal);
  CHECK(content({"plan.max_time=1 h"}).plan.longest == 3600);
  CHECK(content({"plan.vary={ \"part.at.x\" = \"40 mm .. 50 mm\" }"})
            .plan.vary.size() == 1);
}

TEST_CASE("What makes no sense in [plan] is refused with its line", "[plan]") {
  const struct {
    const char *lines, *says;
  } wrong[] = {
      {"goal = \"speed\"\n", "it takes time, evenness or metal"},
      {"max_turns = 25\n",
       "25 is out of range; what makes sense here is 0 .. "},
      {"max_turns = 1.5\n", "not a whole number"},
      {"max_anodes = 0\n", "1 .. 4"},
      {"max_anodes = 5\n", "1 .. 4"},
      {"max_time = \"2 mm\"\n", "plan.max_time"},
      {"max_time = 2\n", "bare number"},
      {"handling = \"2 day\"\n", "0 s .. 1 day"},
      {"seed = -1\n", "0 .. 1e+09"},
      {"move_clip = \"yes\"\n", "without quotes"},
      {"max_turn = 2\n", "is \"max_turns\" meant?"},
      {"shield = \"plate\"\n", "a table"},
      {"shield = { height = \"2 mm\" }\n", "plan.shield.width: is missing"},
      {"thief = { diameter = \"2 mm\", width = \"2 mm\" }\n",
       "plan.thief.width: a rod has none"},
      {"thief = { diameter = \"2 mm\", count = 3 }\n", "1 .. 2"},
      {"shield = { width = \"2 mm\", height = \"2 mm\", corner_radius = \"9 "
       "mm\" }\n",
       "corner_radius"},
      {"vary = {}\n", "is empty"},
  };
  for (const auto& w : wrong) {
    CAPTURE(w.lines);
    const std::string problem = refused(w.lines);
    CHECK_THAT(problem, StartsWith("case.toml:32: ") && Contains(w.says));
  }
}

TEST_CASE("Only what can move may vary", "[plan]") {
  const struct {
    const char *entry, *says;
  } wrong[] = {
      {"\"anode.shet.gap\" = \"15 mm .. 60 mm\"",
       "is \"anode.sheet.gap\" meant?"},
      {"\"anode.sheet.gap\" = \"15 mm\"", "one value, not a range"},
      {"\"anode.sheet.gap\" = \"60 mm .. 15 mm\"", "runs backwards"},
      {"\"anode.sheet.gap\" = \"15 A .. 60 A\"", "length"},
      {"\"anode.sheet.gap\" = \"0 mm .. 60 mm\"", "1 um .. 10 m"},
      {"\"anode.sheet.gap\" = \"15 mm .. 60 m\"", "1 um .. 10 m"},
      {"\"anode.sheet.gap\" = \"nan mm .. 60 mm\"", "nan"},
      {"\"anode.sheet.gap\" = \"\"", "anode.sheet.gap"},
      {"\"anode.sheet.gap\" = 5", "is no range"},
      {"anode.sheet.gap = \"15 mm .. 60 mm\"", "both stand in quotes"},
      {"\"anode.sheet.at.x\" = \"5 mm .. 60 mm\"",
       "not how the case gives its place"},
      {"\"part.at\" = \"5 mm .. 60 mm\"", "\"part.at.x\" or \"part.at.y\""},
      {"\"part.axis.x\" = \"5 mm .. 60 mm\"", "nothing that a plan can vary"},
      {"\"part.area\" = \"1 cm2 .. 2 cm2\"", "nothing that a plan can vary"},
      {"\"tank.width\" = \"50 mm .. 60 mm\"", "tank.level, and what a supply"},
      {"\"tank.level\" = \"50 mm .. 130 mm\"", "at most 120 mm"},
      {"\"supply.voltage\" = \"1 V .. 2 V\"", "is not what the case sets"},
      {"\"supply.voltage_limit\" = \"1 V .. 2 V\"",
       "nothing that a plan can vary"},
      {"\"step.1.duration\" = \"1 min .. 2 min\"",
       "nothing that a plan can vary"},
      {"\"anode.sheet.corner_radius\" = \"0 mm .. 1 mm\"",
       "is not given in the case"},
      {"\"target.thickness\" = \"1 um .. 2 um\"",
       "nothing that a plan can vary"},
  };
  for (const auto& w : wrong) {
    CAPTURE(w.entry);
    CHECK_THAT(refused(vary(w.entry)),
               StartsWith("case.toml:32: plan.vary.") && Contains(w.says));
  }
}

TEST_CASE("Each thing wrong in vary is told once, all at once", "[plan]") {
  const auto problems = problems_in(planning(
      "goal = \"fast\"\n[plan.vary]\n\"part.at.z\" = \"1 mm .. 2 mm\"\n"
      "\"tank.width\" = \"1 mm .. 2 mm\"\n\"part.at.x\" = \"2 mm\"\n"));
  REQUIRE(problems.size() == 4);
  CHECK_THAT(problems[0], StartsWith("case.toml:32: plan.goal"));
  CHECK_THAT(problems[1], StartsWith("case.toml:34: plan.vary.part.at.z"));
  CHECK_THAT(problems[2], StartsWith("case.toml:35: plan.vary.tank.width"));
  CHECK_THAT(problems[3], StartsWith("case.toml:36: plan.vary.part.at.x"));
}

TEST_CASE("No more than 24 keys vary, and hostile names are shown short",
          "[plan][hostile]") {
  std::string many, name(5000, 'x');
  for (int k = 0; k < 25; ++k)
    many += fmt::format("\"anode.{}.gap\" = \"1 mm .. 2 mm\", ", k);
  CHECK_THAT(refused(vary(many + "\"part.at.x\" = \"1 mm .. 2 mm\"")),
             Contains("names 26 keys; at most 24"));
  for (const std::string& hostile :
       {name, std::string("a\\u0007b"), std::string(" ")}) {
    const std::string problem =
        refused(vary("\"" + hostile + "\" = \"1 mm .. 2 mm\""));
    CHECK(problem.size() < 400);
    for (char c : problem) CHECK(static_cast<unsigned char>(c) >= 0x20);
  }
}

TEST_CASE("Nothing on a rack moves by itself", "[plan]") {
  std::string text = with(sound_case(), "at = [\"45 mm\", \"50 mm\"]\n", "");
  text += "[rack]\nat = [[\"45 mm\", \"30 mm\"], [\"45 mm\", \"70 mm\"]]\n";
  CHECK_THAT(only_problem(text + "[plan]\n" +
                          vary("\"part.turn\" = \"0 deg .. 9 deg\"")),
             Contains("on a rack"));
  CHECK(problems_in(text + "[plan]\n" +
                    vary("\"anode.sheet.gap\" = \"20 mm .. 40 mm\""))
            .empty());
}
