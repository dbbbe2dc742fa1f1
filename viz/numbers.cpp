#include "viz/numbers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace thinspot::viz {

namespace {

/// "12.50" -> "12.5", "3.00" -> "3", "-0" -> "0".
std::string trimmed(std::string text) {
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

/// Power of ten at or below value, safe against rounding at the powers.
double power_below(double value) {
  return std::pow(10.0, std::floor(std::log10(value) + 1e-9));
}

}  // namespace

std::string short_number(double value) {
  return trimmed(fmt::format("{:.2f}", value));
}

std::string significant(double value, int digits, bool keep_zeros) {
  if (value == 0) return "0";
  const double size = std::abs(value);
  if (size < 1e-4 || size >= 1e6)
    return fmt::format("{:.{}e}", value, digits - 1);
  // 9.996 is 10.0 with three digits: rounding first tells the size.
  const double rounded_up = size * (1 + 0.5 * std::pow(10.0, -digits));
  const int before =
      1 + static_cast<int>(std::floor(std::log10(rounded_up) + 1e-12));
  const int decimals = digits - before;
  if (decimals >= 0) {
    std::string text = fmt::format("{:.{}f}", value, decimals);
    return keep_zeros ? text : trimmed(std::move(text));
  }
  const double unit = std::pow(10.0, -decimals);
  return fmt::format("{:.0f}", std::round(value / unit) * unit);
}

int digits_worth(double value, double low, double high) {
  return high - low > 0.1 * std::abs(value) ? 2 : 3;
}

bool is_hardly_any(double metres) { return metres < 1e-8; }

std::string micrometre_text(double metres, int digits) {
  if (metres < 0 && !is_hardly_any(-metres)) return "dissolves";
  if (is_hardly_any(metres)) return "under 0.01 \u00B5m";
  return significant(metres * 1e6, digits, true) + " \u00B5m";
}

double nice_below(double value) {
  const double power = power_below(value);
  const double lead = value / power;
  const double slack = 1 + 1e-9;
  if (lead * slack >= 5) return 5 * power;
  if (lead * slack >= 2) return 2 * power;
  return power;
}

double nice_step(double range, int count) {
  const double rough = range / count;
  const double power = power_below(rough);
  const double lead = rough / power;
  if (lead <= 1.4) return power;
  if (lead <= 3.2) return 2 * power;
  if (lead <= 7) return 5 * power;
  return 10 * power;
}

std::vector<Tick> ticks(double low, double high, int count) {
  std::vector<Tick> result;
  if (!(high > low)) return result;
  const double step = nice_step(high - low, count);
  const int decimals =
      std::max(0, static_cast<int>(std::ceil(-std::log10(step) - 1e-9)));
  const double slack = 1e-9 * (high - low);
  for (double k = std::ceil((low - slack) / step); k * step <= high + slack;
       ++k)
    result.push_back(
        {k * step, trimmed(fmt::format("{:.{}f}", k * step, decimals))});
  return result;
}

}  // namespace thinspot::viz
