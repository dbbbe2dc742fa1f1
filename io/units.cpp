#include "io/units.hpp"

#include "io/number.hpp"
#include "io/quote.hpp"
#include "io/unit_meaning.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>

#include <cmath>
#include <optional>

namespace thinspot::io {

namespace {

/// A number and the unit behind it, still as written.
struct Term {
  std::string_view whole;
  double number = 0;
  std::string_view number_text;
  std::string_view unit;
};

[[noreturn]] void refuse(std::string wrong, std::string mend) {
  throw InputError("", std::move(wrong), std::move(mend));
}

std::string as_in(Dimension dimension) {
  return fmt::format("write one number and one unit, as in \"{}\"",
                     dimension_example(dimension));
}

std::string unit_of_example(Dimension dimension) {
  const std::string_view example = dimension_example(dimension);
  return std::string(example.substr(example.find(' ') + 1));
}

Term split(std::string_view text, Dimension dimension) {
  const std::string_view whole = trimmed(text);
  if (whole.empty()) refuse("is empty", as_in(dimension));
  if (const auto one = one_number_for(whole))
    refuse(in_quotes(whole) + " is not written as one number",
           is_printable(*one, one->size()) ? fmt::format("write \"{}\"", *one)
                                           : as_in(dimension));
  const NumberStart start = read_number(whole);
  if (start.length == 0)
    refuse(in_quotes(whole) + " does not start with a number",
           as_in(dimension));
  if (!std::isfinite(start.number))
    refuse(in_quotes(whole) + " is not a finite number", as_in(dimension));
  return {whole, start.number, whole.substr(0, start.length),
          trimmed(whole.substr(start.length))};
}

double to_si(const Term& term, std::string_view unit, Dimension dimension,
             bool difference) {
  const auto written = [&] { return in_quotes(term.whole); };
  if (unit.empty()) {
    if (dimension == Dimension::fraction) return term.number;
    refuse(in_quotes(term.number_text) + " has no unit",
           fmt::format("write \"{} {}\" if that is meant", term.number_text,
                       unit_of_example(dimension)));
  }
  const auto& [conversion, hint] = unit_meaning(unit, dimension);
  if (!hint.empty()) refuse(written() + ": " + hint, as_in(dimension));
  if (conversion.status == UnitConversion::Status::unknown_unit)
    refuse(fmt::format("{}: {} is not a unit", written(), in_quotes(unit)),
           as_in(dimension));
  if (conversion.status == UnitConversion::Status::other_dimension)
    refuse(fmt::format("{} is not {}", written(), dimension_phrase(dimension)),
           as_in(dimension));
  const double value =
      term.number * conversion.scale + (difference ? 0 : conversion.shift);
  if (!std::isfinite(value))
    refuse(written() + " is not a finite number", as_in(dimension));
  return value;
}

struct Halves {
  std::string_view left, right;
};

/// @returns nullopt where the sign does not occur.
std::optional<Halves> halves(std::string_view text, std::string_view sign) {
  const auto at = text.find(sign);
  if (at == std::string_view::npos) return std::nullopt;
  return Halves{text.substr(0, at), text.substr(at + sign.size())};
}

std::optional<Halves> tolerance_halves(std::string_view text) {
  for (const char* sign : {"+-", "+/-", "\u00B1"})
    if (const auto found = halves(text, sign)) return found;
  return std::nullopt;
}

/// The left unit may be left out, as in "18 +- 2 S/m".
std::string_view left_unit(const Term& left, const Term& right,
                           Dimension dimension) {
  if (dimension == Dimension::fraction &&
      left.unit.empty() != right.unit.empty())
    refuse("a % on one side only may mean two things",
           "as in \"95 % +- 2 %\" or \"0.95 +- 0.02\"");
  return left.unit.empty() ? right.unit : left.unit;
}

ParsedQuantity with_tolerance(const Halves& parts, Dimension dimension) {
  const Term value = split(parts.left, dimension);
  const Term around = split(parts.right, dimension);
  if (around.number < 0)
    refuse(in_quotes(around.whole) + " is negative",
           "a tolerance is a positive half width");
  const bool percent = around.unit == "%" || around.unit == "percent";
  if (percent && dimension != Dimension::fraction) {
    if (dimension == Dimension::temperature)
      refuse("a tolerance in % means nothing for a temperature",
             "as in \"25 degC +- 2 degC\"");
    const double si = to_si(value, value.unit, dimension, false);
    return {si, std::abs(si) * around.number / 100};
  }
  return {to_si(value, left_unit(value, around, dimension), dimension, false),
          to_si(around, around.unit, dimension, true)};
}

ParsedQuantity from_range(const Halves& parts, Dimension dimension) {
  const Term from = split(parts.left, dimension);
  const Term to = split(parts.right, dimension);
  const double low =
      to_si(from, left_unit(from, to, dimension), dimension, false);
  const double high = to_si(to, to.unit, dimension, false);
  if (low > high)
    refuse(fmt::format("the range {} .. {} runs backwards",
                       in_quotes(from.whole), in_quotes(to.whole)),
           "put the smaller value first");
  return {low + (high - low) / 2, (high - low) / 2, high > low};
}

}  // namespace

ParsedQuantity parse_quantity(std::string_view text, Dimension dimension) {
  // Far longer than any quantity; keeps messages and work small.
  if (text.size() > 200)
    refuse(in_quotes(text) + " is too long for a quantity", as_in(dimension));
  ParsedQuantity result;
  if (const auto parts = tolerance_halves(text))
    result = with_tolerance(*parts, dimension);
  else if (const auto ends = halves(text, ".."))
    result = from_range(*ends, dimension);
  else {
    const Term term = split(text, dimension);
    result = {to_si(term, term.unit, dimension, false), 0};
  }
  if (!std::isfinite(result.value) || !std::isfinite(result.plus_minus))
    refuse(in_quotes(text) + " is not a finite number", as_in(dimension));
  return result;
}

}  // namespace thinspot::io
