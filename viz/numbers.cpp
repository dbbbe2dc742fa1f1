#include "viz/numbers.hpp"

#include "mesh/digits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::viz {

namespace {

/// Power of ten at or below value, safe against rounding at the powers.
double power_below(double value) {
  return std::pow(10.0, std::floor(std::log10(value) + 1e-9));
}

}  // namespace

std::string short_number(double value) {
  return without_trailing_zeros(fmt::format("{:.2f}", value));
}

bool is_hardly_any(double metres) { return metres < 1e-8; }

std::string micrometre_text(double metres, int count) {
  if (metres < 0 && !is_hardly_any(-metres)) return "dissolves";
  if (is_hardly_any(metres)) return "under 0.01 \u00B5m";
  return full_digits(metres * 1e6, count) + " \u00B5m";
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
    result.push_back({k * step, without_trailing_zeros(fmt::format(
                                    "{:.{}f}", k * step, decimals))});
  return result;
}

}  // namespace thinspot::viz
