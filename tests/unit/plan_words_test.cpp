// What a plan says: sentences and JSON.
#include "io/plan_words.hpp"
#include "case_text.hpp"
#include "io/plan_changes.hpp"
#include "io/plan_json.hpp"
#include "mesh/errors.hpp"
#include "sample_plan.hpp"
#include "solver/plan_variables.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <limits>
#include <numbers>

using namespace thinspot;
using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Json = nlohmann::json;
using Lines = std::vector<std::string>;
using solver::Case;

namespace {

Lines changes(const std::string& text, void (*change)(Case&)) {
  const Case drawn = read_text(text).content;
  Case planned = drawn;
  change(planned);
  return io::plan_changes(drawn, planned);
}

}  // namespace

TEST_CASE("The verdict says what to do and what it gains", "[plan_words]") {
  const io::PlanWords words = io::plan_words(sample_plan());
  CHECK(words.verdict ==
        "Move the sheet from 35 mm to 22 mm from the part; set 0.4 A in place "
        "of 0.33 A; flip the part, left and right change places, after 18 min; "
        "and one thing more below. 10 µm everywhere that counts take 37 min at "
        "the bench in place of 118 min; the heaviest spot grows 1.84 times as "
        "thick as the thinnest in place of 2.94.");
  CHECK(words.gain ==
        Lines{"37 min at the bench in place of 118 min.",
              "The heaviest spot grows 1.84 times as thick as the thinnest in "
              "place of 2.94.",
              "The thinnest spot grows 16.7 µm an hour in place of 5.08.",
              "0.25 g of metal in place of 0.6 g."});
  CHECK(words.first ==
        Lines{"Turned half a turn at half time: the thinnest spot gains 4.2 µm "
              "(42 %).",
              "Sheet farther from the part, by 1 mm: the thinnest spot loses "
              "0.12 µm (1.2 %)."});
  CHECK(words.out_of_reach.empty());
  REQUIRE(words.changes.size() == 2);
  CHECK(words.changes[0] ==
        Lines{"move the sheet from 35 mm to 22 mm from the part",
              "set 0.4 A in place of 0.33 A",
              "flip the part, left and right change places, after 18 min",
              "plate for 36 min in all, 18 min in each step, in place of 40 "
              "min"});
  CHECK(words.changes[1] ==
        Lines{"hang one more anode like the sheet, to the right of the part, "
              "35 mm from it",
              "plate for 41 min, in place of 40 min"});
}

TEST_CASE("A plan that finds nothing better says so", "[plan_words]") {
  const io::PlanWords words = io::plan_words(plan_as_drawn());
  CHECK_THAT(words.verdict,
             Contains("Leave it as drawn") && Contains("118 min at the bench, "
                                                       "as drawn"));
  CHECK(words.changes == std::vector<Lines>{{}});
}

TEST_CASE("What is out of reach names what to relax", "[plan_words]") {
  solver::Plan plan = sample_plan();
  plan.out_of_reach = solver::OutOfReach{
      "no set-up reaches 10 um within 30 min", "plan.max_time", "37 min"};
  plan.set_ups.front().figures.breaks = {"it takes 37 min, longer than wanted"};
  const io::PlanWords words = io::plan_words(plan);
  CHECK(words.out_of_reach ==
        "No set-up reaches 10 um within 30 min. What would do: plan.max_time = "
        "37 min.");
  CHECK_THAT(words.verdict, Contains("But it takes 37 min, longer"));
}

TEST_CASE("Where a place gets nothing no figure is made up", "[plan_words]") {
  solver::Plan plan = sample_plan();
  plan.drawn.figures.least = plan.drawn.figures.evenness = 0;
  io::PlanWords words = io::plan_words(plan);
  CHECK_THAT(words.verdict,
             Contains("gets next to nothing") && !Contains("in place of 2.94"));
  plan.set_ups.front().figures.least = 0;
  plan.set_ups.front().figures.evenness = 0;
  words = io::plan_words(plan);
  CHECK_THAT(words.verdict, Contains("next to nothing all the same"));
  const Json json = Json::parse(io::plan_json(plan, words));
  CHECK(json["set_ups"][0]["figures"]["evenness"].is_null());
}

TEST_CASE("Changes are told as hands do them", "[plan_words]") {
  const std::string sheet_at =
      with(sound_case(), "side = \"left\"\ngap = \"35 mm\"\n",
           "at = [\"8 mm\", \"50 mm\"]\n");
  CHECK(changes(sound_case(), [](Case&) {}).empty());
  CHECK(changes(sheet_at,
                [](Case& c) {
                  c.section.solids[1].at = {0.02, 0.053};
                  c.section.solids[1].turn = std::numbers::pi / 6;
                  c.section.solids[1].sizes["height"] = 0.05;
                }) ==
        Lines{"move the sheet 12 mm to the right and 3 mm up",
              "make the height of the sheet 50 mm in place of 70 mm",
              "turn the sheet by 30° counter-clockwise"});
  CHECK(changes(sound_case(),
                [](Case& c) {
                  solver::place_value(c, "part.at.y", 0.04);
                  c.section.tank.level = 0.095;
                }) == Lines{"move the part 10 mm down",
                            "fill the tank to 95 mm in place of 100 mm"});
  CHECK(changes(sound_case(), [](Case& c) {
          c.section.solids[1].side = mesh::Side::below;
        }) == Lines{"hang the sheet elsewhere: below the part, 35 mm from it"});
  CHECK(changes(sound_case(),
                [](Case& c) {
                  mesh::Solid wire;
                  wire.name = "thief 2";
                  wire.key = "thief.thief 2";
                  wire.role = mesh::Role::thief;
                  wire.shape = "rod";
                  wire.sizes = {{"diameter", 2e-3}};
                  wire.at = {0.045, 0.07};
                  c.section.solids.push_back(wire);
                }) ==
        Lines{"hang a thief on the part's lead: rod, 2 mm across, its "
              "centre 45 mm from the left wall and 70 mm above the "
              "floor"});
  // A clip goes where the part goes, and needs no words.
  const std::string clip = and_also(
      "[[clip]]\nname = \"top\"\nshape = \"plate\"\nwidth = \"3 mm\"\nheight = "
      "\"20 mm\"\nside = \"above\"\ngap = \"0 mm\"\n");
  CHECK(changes(clip, [](Case& c) {
          solver::place_value(c, "part.at.x", 0.05);
        }) == Lines{"move the part 5 mm to the right"});
}

TEST_CASE("Turns are told with their time", "[plan_words]") {
  const std::string plan_view =
      with(with(sound_case(), "level = \"100 mm\"\n", ""), "schema = 1\n",
           "schema = 1\nview = \"plan\"\n");
  CHECK(changes(plan_view,
                [](Case& c) {
                  const solver::Step s = c.steps.front();
                  c.steps.assign(3, s);
                  for (int k = 0; k < 3; ++k) {
                    auto& step = c.steps[static_cast<std::size_t>(k)];
                    step.duration = {600, 0};
                    step.motion.turn = 2 * std::numbers::pi * k / 3;
                  }
                }) ==
        Lines{"turn the part by 120° counter-clockwise every 10 min, 2 "
              "times",
              "plate for 30 min in all, 10 min in each step, in place of "
              "40 min"});
  const std::string turned = sound_case() + "[[step]]\nflip = true\n";
  CHECK(changes(turned, [](Case& c) { c.steps.resize(1); }) ==
        Lines{"do not turn the part", "plate for 40 min, in place of 80 min"});
  CHECK(changes(sound_case(), [](Case& c) {
          c.steps.front().turning = solver::Turning{0, 0, 0.1};
        }) == Lines{"let the part turn at 6 rpm"});
}

TEST_CASE("plan.json has every field in its unit", "[plan_json]") {
  solver::Plan plan = sample_plan();
  const io::PlanWords words = io::plan_words(plan);
  const Json json =
      Json::parse(io::plan_json(plan, words, {{"planned.toml", 1234}}));
  CHECK(json["schema"] == 1);
  CHECK(json["program"]["name"] == "thinspot");
  CHECK(json["goal"] == "time");
  CHECK(json["words"]["verdict"] == words.verdict);
  CHECK(json["words"]["gain"].size() == 4);
  CHECK(json["words"]["first"].size() == 2);
  CHECK(json["words"]["out_of_reach"] == "");
  CHECK(json["drawn"]["figures"]["bench_min"] == 118);
  REQUIRE(json["set_ups"].size() == 2);
  const Json& first = json["set_ups"][0];
  CHECK(first["name"] == "one anode, turned once");
  CHECK(first["file"] == "planned.toml");
  CHECK(json["set_ups"][1]["file"] == "planned_2.toml");
  CHECK(first["changes"].size() == 4);
  CHECK(first["breaks"].empty());
  const Json figures = {
      {"plating_min", 36.0}, {"bench_min", 37.0}, {"turns", 1},
      {"least_um", 10.0},    {"mean_um", 14.0},   {"largest_um", 18.4},
      {"evenness", 1.84},    {"metal_g", 0.25},   {"densest_A_dm2", 4.2},
      {"current_A", 0.4},    {"voltage_V", 0.52}};
  CHECK(first["figures"] == figures);
  CHECK(json["trade_off"][0] == Json({{"bench_min", 37.0},
                                      {"evenness", 1.84},
                                      {"current_A", 0.4},
                                      {"turns", 1},
                                      {"name", "one anode, turned once"}}));
  CHECK(json["levers"][1] ==
        Json({{"key", "anode.sheet.gap"},
              {"words", "sheet farther from the part, by 1 mm"},
              {"change_um", -0.12},
              {"share", -0.012}}));
  CHECK(json["out_of_reach"].is_null());
  CHECK(json["varied"].size() == 1);
  CHECK(json["layouts"] == 12);
  CHECK(json["candidates"] == 48);
  CHECK(json["time_s"] == 3.5);
  CHECK(json["cautions"] == Json({"Goggles.", "Gloves."}));
  CHECK(json["files"] ==
        Json::array({{{"name", "planned.toml"}, {"bytes", 1234}}}));

  plan.out_of_reach =
      solver::OutOfReach{"nothing does", "plan.max_time", "3 h"};
  CHECK(Json::parse(io::plan_json(plan, words))["out_of_reach"] ==
        Json({{"what", "nothing does"},
              {"key", "plan.max_time"},
              {"relaxed", "3 h"}}));
  // What the page is made from has neither times nor files.
  CHECK_FALSE(Json::parse(io::plan_json(plan, words)).contains("time_s"));
  plan.trade_off[0].current = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_WITH(io::plan_json(plan, words),
                    Contains("trade_off.current_A is not a finite number"));
}
