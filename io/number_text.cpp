#include "io/number_text.hpp"

#include "io/trade_units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

namespace thinspot::io {

namespace {

/// Power of ten of a value rounded to `count` digits: 1 for 9.996 and three.
/// @pre value is finite and not 0
int exponent_of(double value, int count) {
  const std::string text = fmt::format("{:.{}e}", value, count - 1);
  return std::stoi(text.substr(text.find('e') + 1));
}

/// Places after the point that show `count` significant digits of the value.
int decimals_for(double value, int count) {
  if (value == 0 || !std::isfinite(value)) return 0;
  return std::max(0, count - 1 - exponent_of(value, count));
}

/// Rounded to that many places after the point, zeros kept; to tens, hundreds
/// … where negative.
std::string at_places(double value, int places) {
  if (places < 0) {
    const double unit = std::pow(10.0, -places);
    value = unit * std::round(value / unit);
  }
  const std::string text = fmt::format("{:.{}f}", value, std::max(0, places));
  const bool nothing = text.find_first_not_of("-0.") == std::string::npos;
  return nothing && text.front() == '-' ? text.substr(1) : text;
}

std::string without_trailing_zeros(std::string text) {
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

}  // namespace

std::string digits(double value, int count) {
  if (value == 0) return "0";
  // Rounded first, so that 9.996 shows as 10 and 123456 as 123000.
  const std::string scientific = fmt::format("{:.{}e}", value, count - 1);
  const double rounded = std::stod(scientific);
  if (!std::isfinite(rounded) || std::abs(rounded) < 1e-6) return scientific;
  return without_trailing_zeros(
      fmt::format("{:.{}f}", rounded, decimals_for(rounded, count)));
}

std::string full_digits(double value, int count) {
  if (value == 0 || !std::isfinite(value)) return digits(value, count);
  return at_places(value, count - 1 - exponent_of(value, count));
}

double six_digits(double value) {
  const std::string text = fmt::format("{:.5e}", value);
  double rounded = 0;
  std::from_chars(text.data(), text.data() + text.size(), rounded);
  return rounded == 0 ? 0.0 : rounded;
}

int digits_worth(double value, const solver::Interval& band) {
  return band.high - band.low > 0.1 * std::abs(value) ? 2 : 3;
}

std::string banded(double value, const solver::Interval& band,
                   const std::string& unit) {
  const int count = digits_worth(value, band);
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
