#include "case_text.hpp"

#include <catch2/catch.hpp>

#include <numbers>

using namespace thinspot;
using Catch::Matchers::Contains;
using tests::and_also;
using tests::only_problem;
using tests::read_text;
using tests::sound_case;
using tests::with;

namespace {

const std::string second_sheet =
    "[[anode]]\nname = \"far\"\nshape = \"plate\"\nwidth = \"2 mm\"\n"
    "height = \"70 mm\"\nside = \"right\"\ngap = \"30 mm\"\n";

const std::string strip =
    "[[clip]]\nname = \"strip\"\nshape = \"plate\"\nwidth = \"1 mm\"\n"
    "height = \"30 mm\"\nside = \"above\"\ngap = \"0 mm\"\n";

/// The sound case with two sheets and a clip, and further steps.
std::string steps(const std::string& more) {
  return and_also(second_sheet + strip) + more;
}

std::vector<solver::Step> read(const std::string& more) {
  return read_text(steps(more)).content.steps;
}

std::string problem(const std::string& more) {
  return only_problem(steps(more));
}

}  // namespace

TEST_CASE("a part turns about its middle, or about the axis given") {
  const auto axis = [](const std::string& text) {
    return mesh::axis_of(read_text(text).content.section.solids.front());
  };
  CHECK(axis(sound_case()) == mesh::Point(0.045, 0.05));
  const std::string at = "at = [\"45 mm\", \"50 mm\"]";
  const mesh::Point there =
      axis(with(sound_case(), at, at + "\naxis = [\"45 mm\", \"64 mm\"]"));
  CHECK((there - mesh::Point(0.045, 0.064)).norm() < 1e-15);
}

TEST_CASE("what a step leaves out is as in the step before") {
  const auto s = read(
      "[[step]]\nflip = true\noff = [\"far\"]\n"
      "supply = { current = \"0.2 A\", voltage_limit = \"2 V\" }\n"
      "[[step]]\nduration = \"5 min\"\nturn = \"90 deg\"\n"
      "[[step]]\nflip = false\noff = []\nlifted = [\"sheet\"]\nclips = []\n"
      "supply = { voltage = \"0.5 V\" }\n");
  REQUIRE(s.size() == 4);
  CHECK(s[0].motion == mesh::Motion{});
  CHECK(!s[0].supply);
  CHECK(!s[0].clips);

  CHECK(s[1].duration.value == 2400);
  CHECK(s[1].motion.flip);
  CHECK(s[1].off == std::vector<std::string>{"far"});
  REQUIRE(s[1].supply);
  CHECK(s[1].supply->current->value == 0.2);
  CHECK(*s[1].supply->voltage_limit == 2);

  CHECK(s[2].duration.value == 300);
  CHECK(s[2].motion.flip);
  CHECK(s[2].motion.turn == Approx(std::numbers::pi / 2));
  CHECK(s[2].off == std::vector<std::string>{"far"});
  CHECK(s[2].supply == s[1].supply);

  CHECK(!s[3].motion.flip);
  CHECK(s[3].motion.turn == s[2].motion.turn);
  CHECK(s[3].off.empty());
  CHECK(s[3].lifted == std::vector<std::string>{"sheet"});
  REQUIRE(s[3].clips);
  CHECK(s[3].clips->empty());
  CHECK(!s[3].supply->current);
  CHECK(s[3].supply->voltage->value == 0.5);
  CHECK(*s[3].supply->voltage_limit == 2);
}

TEST_CASE("a step that cannot be is named for what it is") {
  CHECK_THAT(problem("[[step]]\noff = [\"sheet\", \"far\"]\n"),
             Contains("step.2.off: leaves no anode at work"));
  CHECK_THAT(problem("[[step]]\nlifted = [\"fra\"]\n"),
             Contains("step.2.lifted: there is no \"fra\"; one or more of: "
                      "sheet, far"));
  CHECK_THAT(problem("[[step]]\noff = [\"far\"]\nlifted = [\"far\"]\n"),
             Contains("step.2.lifted: \"far\" is in both lists"));
  CHECK_THAT(problem("[[step]]\nclips = [\"top\"]\n"),
             Contains("step.2.clips: there is no \"top\""));
  CHECK_THAT(problem("[[step]]\nsupply = \"0.2 A\"\n"),
             Contains("step.2.supply: is a text"));
  CHECK_THAT(problem("[[step]]\nsupply = { lead_resistance = \"1 ohm\" }\n"),
             Contains("step.2.supply.lead_resistance: is not a key"));
  CHECK_THAT(
      problem("[[step]]\nsupply = { current = \"1 A\", voltage = \"1 V\" }\n"),
      Contains("step.2.supply.voltage: current is given as well"));
  CHECK_THAT(problem("[[step]]\nturn = \"400 deg\"\n"),
             Contains("step.2.turn"));
  CHECK_THAT(only_problem(with(sound_case(), "duration = \"40 min\"", "")),
             Contains("step.1.duration: is missing"));
}

TEST_CASE("turning is by positions or at a rate") {
  const auto s = read(
      "[[step]]\nturning = { positions = 4, dwell = \"30 s\" }\n"
      "[[step]]\n"
      "[[step]]\nturning = { rate = \"-6 rpm\" }\n"
      "[[step]]\nturning = { positions = 1 }\n");
  REQUIRE(s.size() == 5);
  CHECK(!s[0].turning);
  CHECK(s[1].turning == solver::Turning{4, 30, 0});
  CHECK(s[2].turning == s[1].turning);
  REQUIRE(s[3].turning);
  CHECK(s[3].turning->positions == 0);
  CHECK(s[3].turning->rate == Approx(-0.1));
  CHECK(!s[4].turning);

  CHECK_THAT(problem("[[step]]\nturning = {}\n"),
             Contains("step.2.turning: takes either positions or a rate"));
  CHECK_THAT(
      problem("[[step]]\nturning = { positions = 2, rate = \"1 rpm\" }\n"),
      Contains("either positions or a rate"));
  CHECK_THAT(problem("[[step]]\nturning = { positions = 100 }\n"),
             Contains("step.2.turning.positions: is 100"));
  CHECK_THAT(problem("[[step]]\nturning = { rate = \"0 rpm\" }\n"),
             Contains("step.2.turning.rate: is no turning"));
  CHECK_THAT(
      problem("[[step]]\nturning = { rate = \"1 rpm\", dwell = \"1 s\" }\n"),
      Contains("step.2.turning.dwell: is for positions"));
}

TEST_CASE("motions that a section does not know are refused") {
  const std::string plan =
      with(with(sound_case(), "schema = 1\n", "schema = 1\nview = \"plan\"\n"),
           "level = \"100 mm\"\n", "");
  CHECK_THAT(only_problem(plan + "[[step]]\nflip = true\n"),
             Contains("step.2.flip: is half a turn about an upright wire"));
  CHECK(
      read_text(plan + "[[step]]\nturn = \"180 deg\"\n").content.steps.size() ==
      2);
}

TEST_CASE("a supply of a step may come from the command line") {
  const auto read =
      read_text(steps("[[step]]\n"), {"step.2.supply={ current = \"0.1 A\" }"});
  CHECK(read.content.steps[1].supply->current->value == 0.1);
}
