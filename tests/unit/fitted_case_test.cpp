#include "io/fitted_case.hpp"

#include "io/fit_json.hpp"
#include "io/fit_words.hpp"
#include "io/keyed_quantity.hpp"
#include "mesh/errors.hpp"
#include "tests/unit/case_text.hpp"
#include "tests/unit/fit_samples.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace thinspot;
using Catch::Matchers::Contains;
using Json = nlohmann::json;

namespace {

io::DrawnCase drawn_case(const std::string& text,
                         const std::vector<std::string>& overrides = {}) {
  io::DrawnCase d;
  d.file = tests::case_folder() / "case.toml";
  d.text = text;
  d.overrides = overrides;
  d.content = tests::read_text(text, overrides).content;
  return d;
}

io::FittedCase fitted(const io::DrawnCase& drawn) {
  return io::fitted_case(drawn, tests::fit_sample(drawn.content), "r.csv");
}

/// The text read as a case.
solver::Case read(const std::string& text) {
  return tests::read_text(text).content;
}

}  // namespace

TEST_CASE("a fitted case reads as it was fitted, comments kept") {
  const std::string text =
      tests::with(tests::sound_case(), "conductivity = \"20 S/m +- 3 S/m\"",
                  "conductivity = \"20 S/m +- 3 S/m\"  # from the label");
  const io::FittedCase f = fitted(drawn_case(text));
  CHECK_THAT(f.text, Contains("# Made by thinspot fit from case.toml and 3 "
                              "readings in r.csv."));
  CHECK_THAT(f.text, Contains("conductivity = \"17.3 S/m +- 1.2 S/m\"  # from "
                              "the label  # was 20 S/m +- 3 S/m"));
  CHECK_THAT(f.text, Contains("polarization_at = \"2 A/dm2\"\n"));
  const solver::Case c = read(f.text);
  CHECK(c.solution.conductivity.value == Approx(17.3));
  CHECK(c.solution.conductivity.plus_minus == Approx(1.2));
  CHECK(c.cathode.resistance.value == Approx(2.1e-4));
  CHECK(c.cathode.resistance.plus_minus == Approx(0.33e-4));
  CHECK(c.cathode.at == Approx(200));
  CHECK(c.cathode.offset == solver::Quantity{});
  REQUIRE(c.correlated.size() == 1);
  CHECK(c.correlated[0].by == Approx(0.9999 * 0.654321));
  CHECK(f.unwritten.empty());
}

TEST_CASE("a fitted case fitted again") {
  const io::FittedCase once = fitted(drawn_case(tests::sound_case()));
  const io::FittedCase twice = fitted(drawn_case(once.text));
  CHECK(twice.text.find("Made by", 5) == std::string::npos);
  CHECK(read(twice.text).correlated.size() == 1);
  // The same values again: as the first fit left them.
  CHECK_THAT(twice.text, Contains("# was 20 S/m +- 3 S/m"));
}

TEST_CASE("values that all but hang together are written so that they read") {
  const auto drawn = drawn_case(tests::sound_case());
  solver::Fit fit = tests::fit_sample(drawn.content);
  fit.pairs[0].by = -0.9999999;
  const io::FittedCase f = io::fitted_case(drawn, fit, "r.csv");
  CHECK(read(f.text).correlated.at(0).by == Approx(-0.9999));
}

TEST_CASE("what was overridden is in the fitted case") {
  const io::FittedCase f =
      fitted(drawn_case(tests::sound_case(), {"part.diameter=25 mm"}));
  CHECK(read(f.text).section.solids.front().sizes.at("diameter") ==
        Approx(0.025));
}

TEST_CASE("the density of a slope that was assumed is said with it") {
  const std::string text =
      tests::with(tests::with(tests::sound_case(),
                              "polarization_resistance = \"2.6 ohm cm2\"\n"
                              "polarization_at = \"2 A/dm2\"\n",
                              ""),
                  "[cathode]\n", "");
  const auto drawn = drawn_case(text);
  REQUIRE(drawn.content.cathode.at);
  const solver::Case c = read(fitted(drawn).text);
  CHECK(c.cathode.at == Approx(*drawn.content.cathode.at));
  CHECK_THAT(fitted(drawn).fragment, Contains("polarization_at = "));
}

TEST_CASE("what is to be pasted is what changed") {
  auto drawn = drawn_case(tests::sound_case());
  solver::Fit fit = tests::fit_sample(drawn.content);
  solver::FittedValue anode = fit.values[1];
  anode.key = "anode.sheet.open_circuit_voltage";
  anode.value = -0.0312;
  anode.plus_minus = 0.0047;
  fit.values.push_back(anode);
  const io::FittedCase f = io::fitted_case(drawn, fit, "r.csv");
  CHECK(f.fragment ==
        "# Fitted to 3 readings in r.csv. In place of the same keys.\n\n"
        "[cathode]\n"
        "polarization_resistance = \"2.1 ohm cm2 +- 0.33 ohm cm2\"\n"
        "polarization_at = \"2 A/dm2\"\n\n"
        "[solution]\n"
        "conductivity = \"17.3 S/m +- 1.2 S/m\"\n\n"
        "# Errors of these go together; without it they would count twice.\n"
        "[[correlated]]\n"
        "of = [\"solution.conductivity\", "
        "\"cathode.polarization_resistance\"]\n"
        "by = 0.654256\n\n"
        "# under anode.sheet: open_circuit_voltage = \"-0.0312 V +- 0.0047 "
        "V\"\n");
  CHECK(read(f.text).anodes.front().open_circuit_voltage.value ==
        Approx(-0.0312));
  // Pasted into the case it reads as well.
  std::string pasted = tests::with(
      tests::with(tests::sound_case(), "conductivity = \"20 S/m +- 3 S/m\"\n",
                  "conductivity = \"17.3 S/m +- 1.2 S/m\"\n"),
      "[cathode]\npolarization_resistance = \"2.6 ohm cm2\"\n"
      "polarization_at = \"2 A/dm2\"\n",
      f.fragment.substr(
          f.fragment.find("[cathode]"),
          f.fragment.find("[solution]") - f.fragment.find("[cathode]")));
  pasted += f.fragment.substr(f.fragment.find("[[correlated]]"));
  CHECK(read(pasted).correlated.size() == 1);
}

TEST_CASE("a value without a key of its own is told, and the rest written") {
  auto drawn = drawn_case(tests::sound_case());
  solver::Fit fit = tests::fit_sample(drawn.content);
  fit.values[1].key = "solution.conductivity_per_kelvin";
  fit.pairs.clear();
  const io::FittedCase f = io::fitted_case(drawn, fit, "r.csv");
  CHECK(f.unwritten ==
        std::vector<std::string>{"solution.conductivity_per_kelvin"});
  CHECK(read(f.text).solution.conductivity.value == Approx(17.3));
}

TEST_CASE("quantities as far as they are worth") {
  const auto text = [](const std::string& key, double value, double width) {
    return io::keyed_quantity_text(key, io::rounded_quantity({value, width}));
  };
  CHECK(text("solution.conductivity", 17.3456, 1.2345) ==
        "17.3 S/m +- 1.2 S/m");
  CHECK(text("cathode.polarization_resistance", 2.13456e-4, 9.97e-6) ==
        "2.13 ohm cm2 +- 0.1 ohm cm2");
  CHECK(text("solution.efficiency", 0.97123, 0.0213) == "0.971 +- 0.021");
  CHECK(text("cathode.tafel_slope", 0.11812, 0.0042) == "118.1 mV +- 4.2 mV");
  CHECK(text("cathode.polarization_offset", -0.00213, 0.0123) ==
        "-0.002 V +- 0.012 V");
  CHECK(text("clip.top.contact_resistance", 0.0123, 0.0044) ==
        "0.0123 ohm +- 0.0044 ohm");
  CHECK(text("supply.current", 0.3312, 0.0123) == "0.331 A +- 0.012 A");
  CHECK(text("step.1.duration", 2400, 61) == "40 min +- 1.01667 min");
  CHECK(text("solution.conductivity", 20, 0) == "20 S/m");
}

TEST_CASE("a fit in words") {
  const solver::Fit f =
      tests::fit_sample(drawn_case(tests::sound_case()).content);
  const io::FitWords w = io::fit_words(f);
  CHECK(w.verdict ==
        "By 3 readings: conductivity of the solution 17 S/m (16 to 19) "
        "and polarization resistance of the cathode 2.1 ohm cm2 (1.8 to 2.4).");
  REQUIRE(w.values.size() == 3);
  CHECK_THAT(w.values[0], Contains("in place of 20 S/m +- 3 S/m."));
  CHECK_THAT(w.values[1], Contains("in place of 2.6 ohm cm2, exact."));
  CHECK_THAT(w.values[2], Contains("the readings do not tell it"));
  CHECK_THAT(w.scatter, Contains("go together"));
  REQUIRE(w.outliers.size() == 1);
  CHECK_THAT(w.outliers[0],
             Contains("Line 4, thickness, heaviest spot: read 20 µm, all "
                      "others say 13 µm; without it the conductivity of the "
                      "solution would be 18.9 S/m"));
  REQUIRE(w.untold.size() == 1);
  CHECK_THAT(w.untold[0],
             Contains("cannot tell apart") &&
                 Contains("with less of the polarization resistance"));
  REQUIRE(w.next.size() == 1);
  CHECK_THAT(w.next[0], Contains("polarization_at"));
  CHECK(io::off_text(f.readings[0]) == "0.2 above");
}

TEST_CASE("how readings scatter, in words") {
  solver::Fit f = tests::fit_sample(drawn_case(tests::sound_case()).content);
  f.chance = 1e-4;
  f.widened = 3.2;
  CHECK_THAT(io::fit_words(f).scatter, Contains("3.2 times"));
  f.chance = 0.999;
  CHECK_THAT(io::fit_words(f).scatter, Contains("far less"));
  f.freedom = 0;
  CHECK_THAT(io::fit_words(f).scatter, Contains("nothing is left over"));
}

TEST_CASE("fit.json holds the fit in the units of the case file") {
  const solver::Fit f =
      tests::fit_sample(drawn_case(tests::sound_case()).content);
  const Json j = Json::parse(
      io::fit_json(f, io::fit_words(f), "[solution]\n", {{"fitted.toml", 12}}));
  CHECK(j["schema"] == 1);
  CHECK(j["values"][1]["unit"] == "ohm cm2");
  CHECK(j["values"][1]["value"] == Approx(2.1));
  CHECK(j["values"][1]["stated"] == Approx(2.6));
  CHECK(j["values"][2]["given_up"] == true);
  CHECK(j["correlated"][0]["by"] == Approx(0.654321));
  CHECK(j["readings"][1]["unit"] == "g");
  CHECK(j["readings"][1]["read"] == Approx(0.15));
  CHECK(j["readings"][2]["outlier"] == true);
  CHECK(j["untold"][0]["keys"].size() == 2);
  CHECK(j["fragment"] == "[solution]\n");
  CHECK(j["files"][0]["bytes"] == 12);
  CHECK(j["forecast"]["now"].is_null());
  solver::Fit bad = f;
  bad.values[0].value = std::nan("");
  CHECK_THROWS_AS(io::fit_json(bad, io::fit_words(f), "", {}), NoResultError);
}
