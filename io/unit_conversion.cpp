#include "io/unit_conversion.hpp"

#include "mesh/errors.hpp"

#include <udunits2.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <limits>
#include <memory>
#include <mutex>
#include <string_view>

namespace thinspot::io {

namespace {

struct Free {
  void operator()(ut_unit* unit) const { ut_free(unit); }
  void operator()(cv_converter* converter) const { cv_free(converter); }
};
using Unit = std::unique_ptr<ut_unit, Free>;
using Converter = std::unique_ptr<cv_converter, Free>;

/// Never freed: it serves until the program ends.
ut_system* unit_system() {
  static ut_system* const system = [] {
    ut_set_error_message_handler(ut_ignore);
    ut_system* const read = ut_read_xml(nullptr);
    if (!read)
      throw NoResultError(
          "the table of units is missing; install the package "
          "libudunits2-data");
    return read;
  }();
  return system;
}

const char* si_unit(Dimension dimension) {
  switch (dimension) {
    case Dimension::length: return "m";
    case Dimension::area: return "m2";
    case Dimension::volume: return "m3";
    case Dimension::mass: return "kg";
    case Dimension::duration: return "s";
    case Dimension::angle: return "radian";
    case Dimension::temperature: return "kelvin";
    case Dimension::current: return "ampere";
    case Dimension::voltage: return "volt";
    case Dimension::current_density: return "ampere m-2";
    case Dimension::resistance: return "ohm";
    case Dimension::area_resistance: return "ohm m2";
    case Dimension::conductivity: return "siemens m-1";
    case Dimension::rate: return "s-1";
    case Dimension::fraction: return "1";
    case Dimension::molar_mass: return "kg mol-1";
    case Dimension::mass_density: return "kg m-3";
  }
  return "1";
}

/// UDUNITS takes a radian for the number 1, so that "30 %" would pass as an
/// angle and "3 deg" as a share.
bool holds_radians(const ut_unit* unit) {
  std::array<char, 256> text{};
  const int length =
      ut_format(unit, text.data(), text.size(), UT_ASCII | UT_DEFINITION);
  if (length <= 0) return false;
  const std::string_view all(
      text.data(), std::min(static_cast<std::size_t>(length), text.size()));
  return all.find("rad") != std::string_view::npos;
}

/// UDUNITS multiplies prefixes up: 1 A/dm2 comes out as 99.99999999999999
/// A/m2. Takes the round number where that is only rounding away.
double without_rounding(double scale) {
  std::array<char, 40> text{};
  const auto [end, error] =
      std::to_chars(text.data(), text.data() + text.size(), scale,
                    std::chars_format::scientific, 13);
  double round = scale;
  if (error == std::errc{}) std::from_chars(text.data(), end, round);
  constexpr double kRounding = 4 * std::numeric_limits<double>::epsilon();
  return std::abs(round - scale) <= kRounding * scale ? round : scale;
}

}  // namespace

UnitConversion conversion_to_si(const std::string& unit, Dimension dimension) {
  // UDUNITS' parser and its status live in global variables.
  static std::mutex one_at_a_time;
  const std::lock_guard lock(one_at_a_time);
  UnitConversion result;
  ut_system* const system = unit_system();
  const Unit from(ut_parse(system, unit.c_str(), UT_ASCII));
  if (!from) return result;
  result.status = UnitConversion::Status::other_dimension;
  const Unit to(ut_parse(system, si_unit(dimension), UT_ASCII));
  if (holds_radians(from.get()) != (dimension == Dimension::angle))
    return result;
  const Converter converter(ut_get_converter(from.get(), to.get()));
  if (!converter) return result;
  const double shift = cv_convert_double(converter.get(), 0);
  // A wide step keeps the digits of a degree Fahrenheit.
  const double scale =
      shift == 0 ? cv_convert_double(converter.get(), 1)
                 : (cv_convert_double(converter.get(), 1000) - shift) / 1000;
  const bool shifted = dimension == Dimension::temperature;
  if (!std::isfinite(scale) || scale <= 0 || (shift != 0 && !shifted))
    return result;
  result.status = UnitConversion::Status::fine;
  result.scale = without_rounding(scale);
  result.shift = shift;
  return result;
}

}  // namespace thinspot::io
