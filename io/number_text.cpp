#include "io/number_text.hpp"

#include "io/trade_units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::io {

namespace {

/// Places after the point that show `count` significant digits of the value.
int decimals_for(double value, int count) {
  if (value == 0 || !std::isfinite(value)) return 0;
  const int exponent =
      static_cast<int>(std::floor(std::log10(std::abs(value))));
  return std::max(0, count - 1 - exponent);
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

int digits_worth(double value, const solver::Interval& band) {
  return band.high - band.low > 0.1 * std::abs(value) ? 2 : 3;
}

std::string banded(double value, const solver::Interval& band,
                   const std::string& unit) {
  const int count = digits_worth(value, band);
  const int decimals = decimals_for(value, count);
  // Half of each side counts as rounding: narrower bands say nothing new.
  if (!(band.high - band.low > std::pow(10.0, -decimals)))
    return digits(value) + " " + unit;
  return fmt::format("{} {} ({:.{}f} to {:.{}f})", digits(value, count), unit,
                     band.low, decimals, band.high, decimals);
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

}  // namespace thinspot::io
