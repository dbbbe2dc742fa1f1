#include "io/fit_words.hpp"

#include "io/keyed_quantity.hpp"
#include "io/number_text.hpp"
#include "io/phrases.hpp"
#include "io/quantity_words.hpp"
#include "io/reading_text.hpp"
#include "mesh/digits.hpp"
#include "solver/correlation.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::io {

namespace {

using solver::Fit;
using solver::FittedReading;
using solver::FittedValue;
using solver::Untold;
using Lines = std::vector<std::string>;

/// Times a value up or down, beyond which figures of its interval say nothing.
constexpr int kHopeless = 10;
/// Of a scatter of chance, below or above which something is said.
constexpr double kScattered = 0.01, kTooGood = 0.99;

Lines names_of(const std::vector<std::string>& keys) {
  Lines names;
  for (const std::string& key : keys) names.push_back(quantity_in_words(key));
  return names;
}

std::string value_line(const FittedValue& v) {
  const std::string name = capital(quantity_in_words(v.key));
  if (v.given_up)
    return fmt::format("{}: {} as in the case; the readings do not tell it.",
                       name, keyed_value_text(v.key, v.value));
  if (!v.told)
    return fmt::format(
        "{}: {}, no surer than in the case; its error goes with others'.", name,
        fitted_value_text(v));
  return fmt::format("{}: {}, in place of {}.", name, fitted_value_text(v),
                     stated_value_text(v));
}

std::string verdict(const Fit& f) {
  Lines found;
  for (const FittedValue& v : f.values)
    if (v.wanted && v.told && !v.given_up)
      found.push_back(
          fmt::format("{} {}", quantity_in_words(v.key), fitted_value_text(v)));
  if (found.empty())
    return "The readings tell none of the values that the fit is for more "
           "surely than the case has them.";
  return fmt::format("By {} reading{}: {}.", f.readings.size(),
                     f.readings.size() == 1 ? "" : "s", with_and(found));
}

std::string scatter(const Fit& f) {
  if (f.freedom <= 0)
    return "There are no more readings than values: nothing is left over to "
           "check them by.";
  const std::string figures = fmt::format("sum of squares {} with {} to spare",
                                          digits(f.squares), f.freedom);
  if (f.chance < kScattered)
    return fmt::format(
        "The readings scatter {} times as much as they are said to be sure "
        "({}): the intervals are widened by that. A reading in a wrong unit, "
        "or a case that is not what hung in the tank, looks like this.",
        digits(f.widened, 2), figures);
  if (f.chance > kTooGood)
    return fmt::format(
        "The readings scatter far less than they are said to be sure ({}): "
        "they may be better than that.",
        figures);
  return fmt::format(
      "The readings go together, as well as they are said to be sure ({}).",
      figures);
}

Lines outliers(const Fit& f) {
  Lines lines;
  for (const FittedReading& r : f.readings) {
    if (!r.outlier) continue;
    std::string text =
        fmt::format("Line {}, {}: read {}, all others say {}", r.reading.line,
                    reading_name(r.reading),
                    reading_value_text(r.reading.of, r.reading.value),
                    reading_value_text(r.reading.of, r.others));
    if (!r.moves.empty())
      text += fmt::format("; without it the {} would be {}",
                          quantity_in_words(r.moves),
                          keyed_value_text(r.moves, r.moved_to));
    lines.push_back(text + ". Read it again, or leave it out.");
  }
  return lines;
}

std::string untold_line(const Untold& u) {
  const Lines names = names_of(u.keys);
  if (names.size() == 1)
    return fmt::format("The readings say next to nothing of the {}.",
                       names.front());
  std::string text =
      fmt::format("The readings cannot tell apart the {}: ", with_and(names));
  const bool opposite = u.parts[0] * u.parts[1] < 0;
  text += fmt::format(
      "more of the {} with {} of the {} leaves them as they "
      "are.",
      names[0], opposite ? "less" : "more", names[1]);
  return text;
}

bool names(const Untold& u, std::string_view ending) {
  return std::any_of(u.keys.begin(), u.keys.end(), [&](const std::string& key) {
    return key.ends_with(ending);
  });
}

/// What would tell it; common practice, no source.
std::string next_reading(const Untold& u, const Fit& f) {
  const bool slope = names(u, "cathode.polarization_resistance") ||
                     names(u, "cathode.tafel_slope") ||
                     names(u, "cathode.exchange_current_density");
  const bool offset = names(u, "cathode.polarization_offset");
  const bool conductivity = names(u, "solution.conductivity");
  if (slope && !conductivity && f.stated.cathode.at)
    return "A slope given with polarization_at follows the current, and then "
           "does to the voltage what an offset does: read the thickness at a "
           "thin and at a heavy place, or leave polarization_at out.";
  if (conductivity && (slope || offset))
    return "Read the voltage again with the anode nearer and farther, as in "
           "with = anode.NAME.gap=20 mm: that goes by the conductivity alone. "
           "A thickness at a rim and one in the middle tell the slope.";
  if (slope || offset)
    return "Read the voltage at currents farther apart, a quarter, half and "
           "all of it; or the thickness at a rim and in the middle.";
  if (conductivity)
    return "Read the voltage at one current with the anode at two gaps.";
  if (names(u, "efficiency")) return "Weigh the part before and after.";
  return "";
}

Lines next(const Fit& f) {
  Lines lines;
  for (const Untold& u : f.untold) {
    const std::string line = next_reading(u, f);
    if (!line.empty() &&
        std::find(lines.begin(), lines.end(), line) == lines.end())
      lines.push_back(line);
  }
  return lines;
}

/// A figure before and now, "8.1 µm (7 to 9) before, 8.4 µm (8.2 to 8.6) now".
std::string change(const std::string& before, const std::string& now) {
  return fmt::format("{} before the fit, {} now.", before, now);
}

Lines forecast(const Fit& f) {
  Lines lines;
  if (!f.forecast_before || !f.forecast_now) return lines;
  const solver::Result &was = *f.forecast_before, &is = *f.forecast_now;
  if (was.target && is.target)
    lines.push_back(
        "Thinnest spot that counts: " +
        change(micrometres(was.target->least, was.target->least_band),
               micrometres(is.target->least, is.target->least_band)));
  const auto &t = was.parts.front().thickness, &n = is.parts.front().thickness;
  lines.push_back("Heaviest spot: " +
                  change(micrometres(t.value.max, t.max_band),
                         micrometres(n.value.max, n.max_band)));
  lines.push_back("The supply's meter: " +
                  change(banded(was.cell.voltage, was.cell.voltage_band, "V"),
                         banded(is.cell.voltage, is.cell.voltage_band, "V")));
  return lines;
}

}  // namespace

std::string fitted_value_text(const FittedValue& v) {
  const bool positive = v.interval.low > 0;
  if (positive && v.interval.high > kHopeless * v.value)
    return fmt::format("{}, give or take more than {} times",
                       keyed_value_text(v.key, v.value), kHopeless);
  const auto in_unit = [&](double value) { return keyed_number(v.key, value); };
  return banded(in_unit(v.value),
                {in_unit(v.interval.low), in_unit(v.interval.high)},
                keyed_unit(v.key));
}

std::string stated_value_text(const FittedValue& v) {
  const std::string text = keyed_quantity_text(v.key, v.stated);
  return v.stated.plus_minus > 0 ? text : text + ", exact";
}

std::string off_text(const FittedReading& r) {
  const double off = r.residual / solver::kOf95;
  return fmt::format("{} {}", digits(std::abs(off), 2),
                     off < 0 ? "below" : "above");
}

FitWords fit_words(const Fit& f) {
  FitWords w;
  w.verdict = verdict(f);
  for (const FittedValue& v : f.values) w.values.push_back(value_line(v));
  w.scatter = scatter(f);
  w.outliers = outliers(f);
  for (const Untold& u : f.untold) w.untold.push_back(untold_line(u));
  w.next = next(f);
  w.forecast = forecast(f);
  return w;
}

}  // namespace thinspot::io
