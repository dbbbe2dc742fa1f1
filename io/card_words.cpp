#include "io/card_words.hpp"

#include "io/card_steps.hpp"
#include "io/copies.hpp"
#include "io/number_text.hpp"
#include "io/phrases.hpp"
#include "io/trade_units.hpp"
#include "mesh/digits.hpp"

#include <fmt/format.h>

namespace thinspot::io {

namespace {

using solver::Result;

std::string stirred(const std::string& stirring) {
  if (stirring == "still") return "not stirred";
  if (stirring == "rotating") return "the part rotates";
  return stirring + " stirring";
}

std::string tank_of(const solver::Solution& solution) {
  const std::string& metal = solution.metal.name;
  const bool told = solution.name.find(metal) != std::string::npos;
  return fmt::format("{}{}{}, {} °C, {}", told ? "" : metal,
                     told || solution.name.empty() ? "" : " from ",
                     solution.name, digits(to_deg_c(solution.temperature)),
                     stirred(solution.stirring));
}

std::string tanks_of(const Result& result) {
  if (result.layers.empty()) return capital(tank_of(result.used.solution));
  std::string text;
  for (const solver::LayerResult& layer : result.layers)
    text += (text.empty() ? "" : "; then ") + tank_of(layer.own.used.solution);
  return capital(text);
}

std::string expected(const Result& result) {
  const auto& thin = result.parts[thinnest_spot_on(result)].thickness;
  const auto& heavy = result.parts[heaviest_spot_on(result)].thickness;
  const Banded mean = mean_thickness(result);
  std::string text;
  if (result.target) {
    text = "wanted " + micrometres(result.target->wanted);
    const std::string counts = micrometres(result.target->least, 2);
    text += counts == micrometres(thin.value.min, 2)
                ? ": "
                : " where it counts, expected there " + counts + "; in all ";
  }
  return text + fmt::format("least {}, mean {}, largest {}.",
                            micrometres(thin.value.min, thin.min_band),
                            micrometres(mean.value, mean.band),
                            micrometres(heavy.value.max, heavy.max_band));
}

std::vector<std::string> expected_lines(const Result& result) {
  if (result.layers.empty()) return {capital(expected(result))};
  std::vector<std::string> lines;
  for (const solver::LayerResult& layer : result.layers)
    lines.push_back(capital(layer.name) + ", " + expected(layer.own));
  lines.push_back("Together: " + expected(result));
  return lines;
}

constexpr const char* kShort =
    "a short, a bare hook, a part too near, a clip on the wrong lead.";
constexpr const char* kHeldBack =
    "poor contact, passive anode (dark, gassing), clogged bag, cold or weak "
    "solution.";

/// Which meter tells, of all settings: "volts", "amps", or both.
std::vector<std::string> meter_lines(const Result& result) {
  bool amps = false, volts = false;
  for (const solver::StepResult& step : result.steps) {
    const bool held = step.cell.limited_by.starts_with("voltage");
    amps = amps || held || !step.cell.rectifiers.empty();
    volts = volts || !held || !step.cell.rectifiers.empty();
  }
  const char* low = amps && volts ? "Half the volts, or twice the amps"
                    : amps        ? "Twice the amps"
                                  : "Half the volts";
  const char* high = amps && volts ? "Twice the volts, or half the amps"
                     : amps        ? "Half the amps"
                                   : "Twice the volts";
  return {
      "With the part still out: a voltmeter, red on the anode, black on the "
      "part's clip, must show plus.",
      fmt::format("{}: {}", low, kShort),
      fmt::format("{}: {}", high, kHeldBack)};
}

}  // namespace

CardWords card_words(const Result& result, const Words& words) {
  return {.title = result.used.title,
          .tank = tanks_of(result),
          .verdict = words.verdict,
          .todo = words.todo,
          .steps = card_steps(result),
          .meter = meter_lines(result),
          .thickness = expected_lines(result),
          .cautions = result.cautions};
}

}  // namespace thinspot::io
