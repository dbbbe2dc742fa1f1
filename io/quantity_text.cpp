#include "io/quantity_text.hpp"

#include "io/trade_units.hpp"

#include <fmt/format.h>

#include <cmath>

namespace thinspot::io {

namespace {

/// Rounding that a case file may bring.
constexpr double kRounding = 5e-7;
constexpr int kMostDigits = 7;

/// Without an exponent in any ordinary range.
std::string number(double value) {
  // What is left of a subtraction of alike numbers is none.
  if (std::abs(value) < 1e-9) return "0";
  std::string text;
  for (int digits = 1; digits <= kMostDigits; ++digits) {
    text = fmt::format("{:.{}e}", value, digits - 1);
    if (std::abs(std::stod(text) - value) <= kRounding * std::abs(value)) break;
  }
  return fmt::format("{}", std::stod(text));
}

std::string with_unit(double value, const char* unit) {
  return number(value) + " " + unit;
}

std::string with_unit(const solver::Quantity& q, double factor,
                      const char* unit) {
  const std::string value = with_unit(q.value * factor, unit);
  if (!(q.plus_minus > 0)) return value;
  if (q.evenly)
    return with_unit((q.value - q.plus_minus) * factor, unit) + " .. " +
           with_unit((q.value + q.plus_minus) * factor, unit);
  return value + " +- " + with_unit(q.plus_minus * factor, unit);
}

/// Minutes, but seconds where they are no round minutes.
bool in_seconds(double seconds) {
  return std::abs(seconds - 6 * std::round(seconds / 6)) > kRounding * seconds;
}

}  // namespace

std::string length_text(double metres) {
  return with_unit(to_mm(metres), "mm");
}

std::string angle_text(double radians) {
  return with_unit(to_degrees(radians), "deg");
}

std::string time_text(double seconds) {
  return duration_quantity({seconds, 0});
}

std::string duration_quantity(const solver::Quantity& q) {
  return in_seconds(q.value) ? with_unit(q, 1, "s")
                             : with_unit(q, 1 / 60.0, "min");
}

std::string current_text(const solver::Quantity& amperes) {
  return with_unit(amperes, 1, "A");
}

std::string density_text(const solver::Quantity& density) {
  return with_unit(density, 1e-2, "A/dm2");
}

std::string voltage_text(const solver::Quantity& volts) {
  return with_unit(volts, 1, "V");
}

std::string rate_text(double rate) { return with_unit(rate * 60, "rpm"); }

std::string temperature_text(double kelvin) {
  return with_unit(to_deg_c(kelvin), "degC");
}

std::string conductivity_quantity(const solver::Quantity& conductivity) {
  return with_unit(conductivity, 1, "S/m");
}

}  // namespace thinspot::io
