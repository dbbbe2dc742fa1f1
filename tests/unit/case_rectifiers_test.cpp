// [[rectifier]] tables, anodes on them, and what steps change: rectifiers,
// temperature, conductivity.
#include "case_text.hpp"
#include "solver/step_case.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace thinspot;
using Catch::Matchers::Contains;
using tests::and_also;
using tests::only_problem;
using tests::problems_in;
using tests::read_text;
using tests::sound_case;
using tests::with;

namespace {

const std::string both =
    "[[rectifier]]\nname = \"main\"\ncurrent = \"0.2 A\"\n"
    "voltage_limit = \"6 V\"\nlead_resistance = \"0.1 ohm\"\n"
    "[[rectifier]]\nname = \"helper\"\nvoltage = \"0.8 V\"\n";

std::string far(const std::string& rectifier) {
  return "[[anode]]\nname = \"far\"\nshape = \"plate\"\nwidth = \"2 mm\"\n"
         "height = \"70 mm\"\nside = \"right\"\ngap = \"30 mm\"\n" +
         rectifier + "\n";
}

/// The sound case's [supply] up to the next table.
std::string without_supply() {
  std::string text = sound_case();
  const auto from = text.find("[supply]");
  const auto to = text.find("\n[", from);
  return text.erase(from, to - from + 1);
}

/// Two sheets on two rectifiers.
std::string sound(const std::string& rectifiers = both,
                  const std::string& of_far = "rectifier = \"helper\"",
                  const std::string& of_sheet = "rectifier = \"main\"") {
  const std::string sheet = "name = \"sheet\"\n";
  return and_also(far(of_far),
                  with(without_supply(), sheet, sheet + of_sheet + "\n")) +
         rectifiers;
}

}  // namespace

TEST_CASE("anodes are on the rectifiers that they name") {
  const solver::Case c = read_text(sound()).content;
  REQUIRE(c.rectifiers.size() == 2);
  CHECK(c.rectifiers[0].name == "main");
  CHECK(c.rectifiers[0].supply.current->value == 0.2);
  CHECK(*c.rectifiers[0].supply.voltage_limit == 6);
  CHECK(c.rectifiers[0].supply.lead_resistance.value == 0.1);
  CHECK(c.rectifiers[1].supply.voltage->value == 0.8);
  CHECK(c.anodes[0].rectifier == 0);
  CHECK(c.anodes[1].rectifier == 1);
  // One by one of them is as good as a supply.
  const solver::Case one =
      read_text(sound("[[rectifier]]\ncurrent_density = \"2 A/dm2\"\n", "", ""))
          .content;
  CHECK(one.rectifiers.front().name == "1");
  CHECK(one.anodes[1].rectifier == 0);
}

TEST_CASE("what does not fit together at rectifiers is told") {
  CHECK_THAT(only_problem(sound(both, "")),
             Contains("anode.far.rectifier") && Contains("main, helper"));
  CHECK_THAT(only_problem(sound(both, "rectifier = \"helpr\"")),
             Contains("anode.far.rectifier: there is no \"helpr\""));
  CHECK_THAT(only_problem(sound(both, "rectifier = \"main\"")),
             Contains("rectifier.helper: feeds no anode"));
  CHECK_THAT(only_problem(sound("", "", "")),
             Contains("supply: is missing") && Contains("[[rectifier]]"));
  CHECK_THAT(only_problem(with(sound(), "voltage = \"0.8 V\"",
                               "current_density = \"2 A/dm2\"")),
             Contains("rectifier.helper.current_density"));
  CHECK_THAT(only_problem(with(sound(), "voltage = \"0.8 V\"", "")),
             Contains("rectifier.helper.current: is missing"));
  CHECK_THAT(only_problem(with(sound(), "voltage = \"0.8 V\"",
                               "voltage = \"0.8 V\"\nvoltage_limit = "
                               "\"0.5 V\"")),
             Contains("below the voltage itself"));
  CHECK_THAT(only_problem(sound() + "[supply]\ncurrent = \"1 A\"\n"),
             Contains("supply: stands beside [[rectifier]]"));
  CHECK_THAT(only_problem(and_also(far("rectifier = \"main\""))),
             Contains("there is no [[rectifier]]"));
}

TEST_CASE("a step sets one rectifier, the others stay") {
  const auto steps =
      read_text(sound() +
                "[[step]]\nrectifiers = { main = { current = \"0.1 A\" } }\n"
                "[[step]]\nrectifiers = { helper = { current = \"0.05 A\", "
                "voltage_limit = \"2 V\" } }\n")
          .content.steps;
  REQUIRE(steps.size() == 3);
  CHECK(!steps[0].rectifiers);
  REQUIRE(steps[1].rectifiers);
  CHECK((*steps[1].rectifiers)[0].current->value == 0.1);
  CHECK(*(*steps[1].rectifiers)[0].voltage_limit == 6);
  CHECK((*steps[1].rectifiers)[1].voltage->value == 0.8);
  CHECK((*steps[2].rectifiers)[0].current->value == 0.1);
  CHECK(!(*steps[2].rectifiers)[1].voltage);
  CHECK((*steps[2].rectifiers)[1].current->value == 0.05);

  CHECK_THAT(only_problem(sound() + "[[step]]\nrectifiers = { man = { current "
                                    "= \"0.1 A\" } }\n"),
             Contains("step.2.rectifiers.man") && Contains("main"));
  CHECK_THAT(
      only_problem(sound() + "[[step]]\nsupply = { current = \"0.1 A\" }\n"),
      Contains("step.2.supply: there is no [supply]"));
  CHECK_THAT(only_problem(sound_case() + "[[step]]\nrectifiers = { main = { "
                                         "current = \"0.1 A\" } }\n"),
             Contains("there is no [[rectifier]]"));
  CHECK_THAT(only_problem(sound() + "[[step]]\nrectifiers = { main = { "
                                    "lead_resistance = \"1 ohm\" } }\n"),
             Contains("step.2.rectifiers.main.lead_resistance"));
}

TEST_CASE("every quantity of a rectifier may carry a tolerance") {
  solver::Case c = read_text(sound() +
                             "[[step]]\nrectifiers = { main = { "
                             "current = \"0.1 A\" } }\n")
                       .content;
  std::vector<std::string> keys;
  solver::for_each_quantity(c, [&](const std::string& key, solver::Quantity&) {
    keys.push_back(key);
  });
  for (const char* key :
       {"rectifier.main.current", "rectifier.main.lead_resistance",
        "rectifier.helper.voltage", "step.2.rectifiers.main.current",
        "step.2.rectifiers.helper.voltage"})
    CHECK(std::count(keys.begin(), keys.end(), key) == 1);
}

TEST_CASE("conductivity follows the temperature, until it is told anew") {
  solver::Case c = read_text(sound_case() +
                             "[[step]]\ntemperature = \"35 degC\"\n"
                             "[[step]]\nduration = \"1 min\"\n"
                             "[[step]]\nconductivity = \"30 S/m +- 1 S/m\"\n"
                             "[[step]]\ntemperature = \"25 degC\"\n")
                       .content;
  REQUIRE(c.steps.size() == 5);
  const auto in = [&](std::size_t k) {
    return solver::case_of_step(c, k).solution;
  };
  const double drawn = c.solution.conductivity.value;
  const double at = c.solution.temperature;
  const double more = std::exp(0.02 * (308.15 - at));
  CHECK(in(0).conductivity == c.solution.conductivity);
  CHECK(in(1).conductivity.value == Approx(drawn * more));
  CHECK(in(2).conductivity == in(1).conductivity);
  CHECK(in(2).temperature == Approx(308.15));
  CHECK(in(3).conductivity == solver::Quantity{30, 1});
  CHECK(in(4).conductivity.value == Approx(30 * std::exp(-0.2)));
  CHECK(in(4).conductivity.plus_minus == Approx(std::exp(-0.2)));
  // Said, and in the bands.
  const auto assumed = [&](const std::string& key) {
    return std::count_if(c.assumed.begin(), c.assumed.end(),
                         [&](const auto& a) { return a.key == key; });
  };
  CHECK(assumed("step.2.conductivity") == 1);
  CHECK(assumed("step.4.conductivity") == 0);
  CHECK(assumed("step.5.conductivity") == 1);
  double plus_minus = 0;
  solver::for_each_quantity(c,
                            [&](const std::string& key, solver::Quantity& q) {
                              if (key == "solution.conductivity_per_kelvin")
                                plus_minus = q.plus_minus;
                            });
  CHECK(plus_minus == 0.01);
  CHECK_THAT(
      only_problem(sound_case() + "[[step]]\ntemperature = \"300 degC\"\n"),
      Contains("step.2.temperature"));
}
