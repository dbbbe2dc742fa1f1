#include "io/keyed_quantity.hpp"

#include "mesh/digits.hpp"

#include <fmt/format.h>

#include <cmath>
#include <cstdlib>
#include <string_view>
#include <vector>

namespace thinspot::io {

namespace {

using solver::Quantity;

struct Unit {
  std::string_view ending;  ///< of the key
  std::string_view name;
  double factor;  ///< from SI
};

/// The first whose ending fits.
const std::vector<Unit>& units() {
  static const std::vector<Unit> all = {
      {"conductivity_per_kelvin", "1/K", 1},
      {"conductivity", "S/m", 1},
      {"efficiency", "", 1},
      {"polarization_resistance", "ohm cm2", 1e4},
      {"bag_resistance", "ohm cm2", 1e4},
      {"exchange_current_density", "A/m2", 1},
      {"current_density", "A/dm2", 1e-2},
      {"tafel_slope", "mV", 1e3},
      {"offset", "V", 1},
      {"voltage", "V", 1},
      {"current", "A", 1},
      {"duration", "min", 1 / 60.0},
  };
  return all;
}

Unit unit_of(const std::string& key) {
  for (const Unit& u : units())
    if (key.ends_with(u.ending)) return u;
  return {"", "ohm", 1};
}

/// As many digits as a case file keeps, without an exponent.
std::string plain(double value) {
  const std::string six = fmt::format("{:.6g}", value);
  return six.find('e') == std::string::npos ? six
                                            : fmt::format("{:.7e}", value);
}

}  // namespace

std::string keyed_quantity_text(const std::string& key, const Quantity& q) {
  const Unit unit = unit_of(key);
  const std::string tail =
      unit.name.empty() ? "" : fmt::format(" {}", unit.name);
  const std::string value = plain(q.value * unit.factor) + tail;
  if (!(q.plus_minus > 0)) return value;
  return fmt::format("{} +- {}{}", value, plain(q.plus_minus * unit.factor),
                     tail);
}

std::string keyed_value_text(const std::string& key, double value) {
  const Unit unit = unit_of(key);
  const std::string number = digits(value * unit.factor);
  return unit.name.empty() ? number : fmt::format("{} {}", number, unit.name);
}

std::string keyed_unit(const std::string& key) {
  return std::string(unit_of(key).name);
}

double keyed_number(const std::string& key, double value) {
  return value * unit_of(key).factor;
}

Quantity rounded_quantity(const Quantity& q) {
  if (!(q.plus_minus > 0)) return q;
  const double width =
      std::strtod(fmt::format("{:.1e}", q.plus_minus).c_str(), nullptr);
  // The place of the second digit of the width.
  const double place = std::pow(10.0, std::floor(std::log10(width)) - 1);
  return {place * std::round(q.value / place), width};
}

}  // namespace thinspot::io
