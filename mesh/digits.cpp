#include "mesh/digits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot {

namespace {

/// Beyond these a row of zeros is harder to read than an exponent.
constexpr double kSmallest = 1e-6, kLargest = 1e6;

/// Places after the point that show `count` significant digits of the value.
int decimals_for(double value, int count) {
  return std::max(0, count - 1 - exponent_of(value, count));
}

}  // namespace

std::string digits(double value, int count) {
  if (value == 0) return "0";
  // Rounded first, so that 9.996 shows as 10 and 123456 as 123000.
  const std::string scientific = fmt::format("{:.{}e}", value, count - 1);
  const double rounded = std::stod(scientific);
  if (!std::isfinite(rounded) || std::abs(rounded) < kSmallest ||
      std::abs(rounded) >= kLargest)
    return scientific;
  return without_trailing_zeros(
      fmt::format("{:.{}f}", rounded, decimals_for(rounded, count)));
}

std::string full_digits(double value, int count) {
  if (value == 0 || !std::isfinite(value)) return digits(value, count);
  return at_places(value, count - 1 - exponent_of(value, count));
}

std::string at_places(double value, int places) {
  if (places < 0) {
    const double unit = std::pow(10.0, -places);
    value = unit * std::round(value / unit);
  }
  const std::string text = fmt::format("{:.{}f}", value, std::max(0, places));
  const bool nothing = text.find_first_not_of("-0.") == std::string::npos;
  return nothing && text.front() == '-' ? text.substr(1) : text;
}

int exponent_of(double value, int count) {
  const std::string text = fmt::format("{:.{}e}", value, count - 1);
  return std::stoi(text.substr(text.find('e') + 1));
}

std::string without_trailing_zeros(std::string text) {
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

}  // namespace thinspot
