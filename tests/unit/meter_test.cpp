// What stands at the bench beside the tank: an adapter's resistor, wire, gas,
// and how evenly the solution throws, in keys, words and summary.
#include "case_text.hpp"
#include "io/adapter_words.hpp"
#include "io/evenness_words.hpp"
#include "io/gas_words.hpp"
#include "io/inspection_words.hpp"
#include "io/meter_json.hpp"
#include "io/words.hpp"
#include "sample_result.hpp"
#include "solver/inspect.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace thinspot;
using Catch::Matchers::Contains;
using tests::only_problem;
using tests::read_text;
using tests::sound_case;

namespace {

std::string refused(const std::vector<std::string>& overrides) {
  return only_problem(sound_case(), overrides);
}

nlohmann::json meter_of(const solver::Result& r) {
  return nlohmann::json::parse(io::meter_json(r));
}

/// 0.33 A through a cell that takes 1 V, anything from 0.5 V to 1.5 V.
solver::Result on_adapter(solver::Adapter adapter) {
  solver::Result r = tests::sample_result();
  r.cell.current = 0.33;
  r.cell.voltage = 1;
  r.cell.voltage_band = {0.5, 1.5};
  r.cell.limited_by = "current";
  r.used.supply.adapter = adapter;
  return r;
}

}  // namespace

TEST_CASE("an adapter is read with its rating", "[meter]") {
  const auto supply = read_text(sound_case(), {"supply.adapter_voltage=9 V",
                                               "supply.adapter_current=1 A"})
                          .content.supply;
  REQUIRE(supply.adapter);
  CHECK(supply.adapter->voltage == 9);
  CHECK(*supply.adapter->current == 1);
  CHECK_FALSE(read_text(sound_case()).content.supply.adapter);
}

TEST_CASE("what no adapter can be is refused", "[meter]") {
  CHECK_THAT(refused({"supply.adapter_current=1 A"}),
             Contains("supply.adapter_current: is of an adapter whose volts"));
  CHECK_THAT(refused({"supply.adapter_voltage=61 V"}),
             Contains("61 V, above the 60 V"));
  CHECK(tests::problems_in(sound_case(), {"supply.adapter_voltage=60 V"})
            .empty());
  CHECK_THAT(refused({"supply.adapter_voltage=9 V", "supply.voltage=1.5 V"}),
             Contains("supply.voltage: stands beside an adapter"));
  CHECK_THAT(
      refused({"supply.adapter_voltage=9 V", "supply.voltage_limit=6 V"}),
      Contains("supply.voltage_limit: stands beside an adapter"));
  CHECK_THAT(
      refused({"step.1.supply={ current = \"0.2 A\", adapter_voltage = \"9 V\" "
               "}"}),
      Contains("adapter_voltage: is not for a step") &&
          Contains("put it into [supply]"));
  CHECK_THAT(refused({"supply.adapter_voltage=9 V",
                      "step.1.supply={ voltage = \"2 V\" }"}),
             Contains("voltage: stands beside an adapter"));
}

TEST_CASE("an adapter's resistor, by Ohm's law", "[meter]") {
  const solver::Result r = on_adapter({9, 1.0});
  const auto resistor = meter_of(r)["meter"]["series_resistor"];
  // (9 V - 1 V) / 0.33 A; the next of the E12 series; and back.
  CHECK(resistor["exact_ohm"].get<double>() == Approx(8 / 0.33));
  CHECK(resistor["ohm"].get<double>() == Approx(27));
  const double flows = 9 / (27 + 1 / 0.33);
  CHECK(resistor["current_A"].get<double>() == Approx(flows));
  CHECK(resistor["heat_W"].get<double>() == Approx(flows * flows * 27));
  CHECK(resistor["short_circuit_A"].get<double>() == Approx(9.0 / 27));
  const auto lines = io::supply_words(r);
  REQUIRE(lines.size() == 2);
  CHECK_THAT(lines[0], Contains("put 27 ohm in series (24.2 ohm would") &&
                           Contains("0.30 A (0.29 to 0.32) flows") &&
                           Contains("Its rating of 1 A suffices"));
}

TEST_CASE("an adapter's rating and volts are judged", "[meter]") {
  const auto said = [](solver::Adapter adapter) {
    return io::supply_words(on_adapter(adapter)).at(0);
  };
  CHECK_THAT(said({9, 0.2}), Contains("rated for 0.2 A, which is too little"));
  // 0.30 A flow, 0.33 A through a short.
  CHECK_THAT(said({9, 0.31}), Contains("but not the short circuit"));
  CHECK_THAT(said({9, {}}), Contains("must be rated for 0.33 A or more"));
  CHECK_THAT(said({1, 1.0}), Contains("An adapter of 1 V cannot drive"));
  CHECK(meter_of(on_adapter({1, 1.0}))["meter"]["series_resistor"].is_null());
  CHECK_THAT(said({1.4, 1.0}), Contains("may take all of the adapter's volts"));
}

TEST_CASE("check tells the resistor from its estimate", "[meter]") {
  const solver::Case c =
      read_text(sound_case(), {"supply.adapter_voltage=9 V"}).content;
  const auto words = io::words_for(solver::inspect(c), c);
  REQUIRE(words.supply.size() == 2);
  CHECK_THAT(words.supply[0], Contains("The 9 V adapter limits no current"));
  CHECK_THAT(words.supply[1], Contains("; 1 m each way loses "));
  // One without volts enough is something to look at.
  const solver::Case weak =
      read_text(sound_case(), {"supply.adapter_voltage=0.01 V"}).content;
  const auto looks = io::words_for(solver::inspect(weak), weak).looks;
  CHECK(std::any_of(looks.begin(), looks.end(), [](const std::string& text) {
    return text.find("more than the adapter's 0.01 V") != std::string::npos;
  }));
}

TEST_CASE("the meter of the summary holds what half and twice are", "[meter]") {
  const auto held = meter_of(on_adapter({9, 1.0}))["meter"];
  CHECK(held["expected_V"] == 1);
  CHECK(held["half_V"] == 0.5);
  CHECK(held["twice_V"] == 2);
  CHECK_FALSE(held.contains("expected_A"));
  CHECK(held["wire"]["area_mm2"].get<double>() == Approx(0.25));
  solver::Result r = tests::sample_result();
  r.cell.limited_by = "voltage limit";
  const auto limited = meter_of(r)["meter"];
  CHECK(limited["expected_A"].get<double>() == r.cell.current);
  CHECK_FALSE(limited.contains("expected_V"));
  CHECK_FALSE(limited.contains("series_resistor"));
}

TEST_CASE("the meter's lines name short, passive anode and reversed leads",
          "[meter]") {
  std::string all;
  for (const std::string& line : io::words_for(on_adapter({9, 1.0})).meter)
    all += line + "\n";
  CHECK_THAT(all, Contains("short between anode and part") &&
                      Contains("passive anode") && Contains("reversed") &&
                      Contains("must show plus"));
}

TEST_CASE("gas is told where there is any, and what it asks for", "[meter]") {
  CHECK(io::gas_words({}).empty());
  CHECK(io::gas_words({0.9e-6, 0, 0}).empty());
  CHECK_THAT(io::gas_words({1.2e-4, 0, 0}),
             Contains("120 ml of hydrogen") && Contains("4 % by volume"));
  const std::string chlorine = io::gas_words({0, 1e-3, 2e-3});
  CHECK_THAT(chlorine,
             Contains("1 l of oxygen") && Contains("2 l of chlorine"));
  CHECK_THAT(chlorine, !Contains("ydrogen"));
}

TEST_CASE("evenness is told with its own numbers", "[meter]") {
  solver::Result r = tests::sample_result();
  r.wagner_number = 0.25;
  r.wagner_length = 0.02;
  solver::ThrowingPower t;
  t.mass_ratio = 3;
  t.field = solver::field_percent(5, 3);
  t.haring_blum = solver::haring_blum_percent(5, 3);
  t.mass_ratio_band = {3, 3};
  t.field_band = {t.field, t.field};
  t.haring_blum_band = {t.haring_blum, t.haring_blum};
  r.appraisal.throwing = t;
  const std::string text = io::evenness_words(r);
  // 1 part in 1.25 of the voltage; 0.25 of 20 mm.
  CHECK_THAT(text, Contains("80 % of the voltage goes into the solution") &&
                       Contains("under 5 mm plate alike"));
  CHECK_THAT(io::throwing_words(r),
             Contains("near one gets 3 times the far one's metal") &&
                 Contains("33.3 % by Field") &&
                 Contains("40 % by Haring and Blum"));
  r.wagner_number = 4;
  CHECK_THAT(io::evenness_words(r),
             Contains("80 % of the voltage goes into the surface"));
  r.appraisal.throwing.reset();
  CHECK_THAT(io::throwing_words(r), Contains("is not told"));
  CHECK(meter_of(r)["throwing_power"].is_null());
}
