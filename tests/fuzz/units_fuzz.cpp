// A quantity with its unit, for each dimension; what is taken is written by us
// and taken again.
#include "io/quantity_text.hpp"
#include "io/units.hpp"
#include "tests/fuzz/target.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace thinspot::fuzz {

namespace {

using io::Dimension;

/// The dimensions in their order, and the units that SI has for them.
constexpr std::array kUnits{"m",   "m2",  "m3", "kg",     "s",    "radian",
                            "K",   "A",   "V",  "A/m2",   "ohm",  "ohm m2",
                            "S/m", "1/s", "",   "kg/mol", "kg/m3"};

/// What case files of ours say; empty where none of them has the dimension.
std::string our_text(const io::ParsedQuantity& q, Dimension dimension) {
  const solver::Quantity all{q.value, q.plus_minus, q.evenly};
  switch (dimension) {
    case Dimension::length: return io::length_text(q.value);
    case Dimension::duration: return io::duration_quantity(all);
    case Dimension::angle: return io::angle_text(q.value);
    case Dimension::temperature: return io::temperature_text(q.value);
    case Dimension::current: return io::current_text(all);
    case Dimension::voltage: return io::voltage_text(all);
    case Dimension::current_density: return io::density_text(all);
    case Dimension::conductivity: return io::conductivity_quantity(all);
    case Dimension::rate: return io::rate_text(q.value);
    default: return "";
  }
}

void require_again(const io::ParsedQuantity& q, Dimension dimension) {
  const auto* unit = kUnits.at(static_cast<std::size_t>(dimension));
  const auto exact =
      io::parse_quantity(fmt::format("{} {}", q.value, unit), dimension);
  require(exact.value == q.value, "in SI it is read as it was");
  // Beyond what a case file takes digits run out, and below it is nothing.
  constexpr double least = 1e-6, most = 1e12;
  if (!(std::abs(q.value) >= least) || !(std::abs(q.value) <= most)) return;
  const std::string text = our_text(q, dimension);
  if (text.empty()) return;
  const io::ParsedQuantity again = io::parse_quantity(text, dimension);
  // Of a millionth each: the ends of a range, or of degrees that are counted
  // from elsewhere.
  const double near = 1e-6 * (std::abs(q.value) + q.plus_minus +
                              273.15 * (dimension == Dimension::temperature));
  require(std::abs(again.value - q.value) <= near,
          "as our case files write it, it is read as it was");
}

}  // namespace

bool one_input(std::string_view bytes) {
  const Chosen input = chosen(bytes, kUnits.size());
  const auto dimension = static_cast<Dimension>(input.way);
  try {
    const auto q = io::parse_quantity(input.rest, dimension);
    require(std::isfinite(q.value), "a value is finite");
    require(std::isfinite(q.plus_minus) && q.plus_minus >= 0,
            "a half width is finite and not negative");
    require_again(q, dimension);
  } catch (const InputError& error) {
    require_clear(error);
  }
  return true;
}

}  // namespace thinspot::fuzz
