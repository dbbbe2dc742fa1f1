#include "io/number_text.hpp"

#include "io/trade_units.hpp"
#include "mesh/digits.hpp"

#include <fmt/format.h>

#include <charconv>
#include <cmath>

namespace thinspot::io {

double six_digits(double value) {
  const std::string text = fmt::format("{:.5e}", value);
  double rounded = 0;
  std::from_chars(text.data(), text.data() + text.size(), rounded);
  return rounded == 0 ? 0.0 : rounded;
}

std::string banded(double value, const solver::Interval& band,
                   const std::string& unit) {
  const int count = solver::digits_worth(value, band);
  const double scale = value != 0 ? value : band.high;
  // Places after the point, or zeros before it where negative.
  const int places = scale == 0 ? 0 : count - 1 - exponent_of(scale, count);
  // Half of each side counts as rounding: narrower bands say nothing new.
  if (!(band.high - band.low > std::pow(10.0, -places)))
    return digits(value) + " " + unit;
  return fmt::format("{} {} ({} to {})", at_places(value, places), unit,
                     at_places(band.low, places), at_places(band.high, places));
}

std::string micrometres(double metres, int count) {
  return digits(to_um(metres), count) + " µm";
}

std::string micrometres(double metres, const solver::Interval& band) {
  return banded(to_um(metres), {to_um(band.low), to_um(band.high)}, "µm");
}

std::string duration_text(double seconds) {
  if (seconds < 60) return digits(seconds, 2) + " s";
  const double minutes = to_minutes(seconds);
  if (minutes < 180) return digits(minutes, minutes < 10 ? 2 : 3) + " min";
  const auto whole = static_cast<long long>(std::llround(minutes));
  if (whole >= 100LL * 60) return digits(minutes / 60, 3) + " h";
  return whole % 60 == 0 ? fmt::format("{} h", whole / 60)
                         : fmt::format("{} h {} min", whole / 60, whole % 60);
}

std::string time_estimate(double seconds) {
  return duration_text(seconds < 600 ? seconds : 60 * std::ceil(seconds / 60));
}

}  // namespace thinspot::io
