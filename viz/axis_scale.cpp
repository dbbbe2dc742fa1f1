#include "viz/axis_scale.hpp"

#include "mesh/digits.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::viz {

namespace {

constexpr double kRoom = 0.08;      ///< of the span, at an end
constexpr double kLeastSpan = 0.2;  ///< of the value: nearer ones are alike

/// Powers of ten times these, as far as they lie inside.
std::vector<Tick> powers(double low, double high,
                         const std::vector<double>& leads) {
  std::vector<Tick> found;
  for (double power = std::pow(10.0, std::floor(std::log10(low)));
       power <= high; power *= 10)
    for (const double lead : leads) {
      const double value = lead * power;
      if (value >= low * (1 - 1e-9) && value <= high * (1 + 1e-9))
        found.push_back({value, digits(value)});
    }
  return found;
}

}  // namespace

double AxisScale::page(double value) const {
  const double share = by_factor ? std::log(std::max(value, 1e-3 * low) / low) /
                                       std::log(high / low)
                                 : (value - low) / (high - low);
  return from + share * (to - from);
}

std::vector<Tick> AxisScale::numbers(int count) const {
  if (!by_factor) return ticks(low, high, count);
  std::vector<Tick> found = powers(low, high, {1, 2, 5});
  if (found.size() < 3) found = powers(low, high, {1, 1.5, 2, 3, 4, 5, 6, 8});
  const auto most = static_cast<std::size_t>(2 * count);
  if (found.size() > most) found = powers(low, high, {1});
  return found;
}

AxisScale around(const std::vector<double>& values, double from, double to,
                 double far) {
  AxisScale scale{0, 1, from, to, false};
  if (values.empty()) return scale;
  const auto [least, most] = std::minmax_element(values.begin(), values.end());
  scale.by_factor = *most > far * *least;
  if (scale.by_factor) {
    const double room = std::pow(*most / *least, kRoom);
    scale.low = *least / room;
    scale.high = *most * room;
    return scale;
  }
  const double span = std::max(*most - *least, kLeastSpan * *most);
  const double middle = 0.5 * (*most + *least);
  scale.low = std::max(0.0, middle - (0.5 + kRoom) * span);
  scale.high = middle + (0.5 + kRoom) * span;
  return scale;
}

AxisScale around_any(const std::vector<double>& values, double from, double to,
                     double far) {
  AxisScale scale{0, 1, from, to, false};
  if (values.empty()) return scale;
  const auto [least, most] = std::minmax_element(values.begin(), values.end());
  if (*least > 0) return around(values, from, to, far);
  double span =
      std::max(*most - *least, kLeastSpan * std::max(*most, std::abs(*least)));
  if (span <= 0) span = 1;
  const double middle = 0.5 * (*most + *least);
  scale.low = middle - (0.5 + kRoom) * span;
  if (*least == 0) scale.low = std::max(scale.low, 0.0);
  scale.high = middle + (0.5 + kRoom) * span;
  return scale;
}

AxisScale up_from(double low, const std::vector<double>& values, double from,
                  double to, double far) {
  const double most =
      values.empty() ? low : *std::max_element(values.begin(), values.end());
  AxisScale scale{low, std::max(most, (1 + kLeastSpan) * low), from, to, false};
  scale.by_factor = most > far * low;
  scale.high = scale.by_factor ? scale.high * std::pow(scale.high / low, kRoom)
                               : scale.high + kRoom * (scale.high - low);
  return scale;
}

}  // namespace thinspot::viz
