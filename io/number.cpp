#include "io/number.hpp"

#include "io/quote.hpp"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <limits>
#include <utility>

namespace thinspot::io {

namespace {

using Glyph = std::pair<std::string_view, double>;

constexpr std::array<Glyph, 3> kGlyphs{
    {{"\u00BC", 0.25}, {"\u00BD", 0.5}, {"\u00BE", 0.75}}};

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::size_t digits(std::string_view text) {
  std::size_t count = 0;
  while (count < text.size() && is_digit(text[count])) ++count;
  return count;
}

/// A numerator and denominator at the start, as in "1/2 in".
struct Fraction {
  double value = 0;
  std::string_view rest;
};

std::optional<Fraction> read_fraction(std::string_view text) {
  for (const auto& [glyph, value] : kGlyphs)
    if (text.starts_with(glyph))
      return Fraction{value, text.substr(glyph.size())};
  const std::size_t above = digits(text);
  if (above == 0 || above > 9 || above + 1 >= text.size() || text[above] != '/')
    return std::nullopt;
  const std::size_t below = digits(text.substr(above + 1));
  if (below == 0 || below > 9) return std::nullopt;
  const double denominator = read_number(text.substr(above + 1, below)).number;
  if (denominator == 0) return std::nullopt;
  return Fraction{read_number(text.substr(0, above)).number / denominator,
                  text.substr(above + 1 + below)};
}

std::string number_and_unit(double number, std::string_view unit) {
  const std::string both = fmt::format("{:.6g} {}", number, trimmed(unit));
  return std::string(trimmed(both));
}

/// "1,5 mm" has a decimal comma, "1,500 mm" may have either.
std::optional<std::string> without_comma(std::string_view before,
                                         std::string_view after) {
  const std::size_t count = digits(after);
  if (count == 0) return std::nullopt;
  const std::string_view unit = trimmed(after.substr(count));
  const std::string_view behind = after.substr(0, count);
  if (unit.starts_with('.') || unit.starts_with(',')) return std::nullopt;
  const std::string decimal = fmt::format("{}.{} {}", before, behind, unit);
  if (count != 3) return decimal;
  return fmt::format("{}{} {}\" or \"{}", before, behind, unit, decimal);
}

/// The inches behind "5'" in "5'6\"".
std::optional<std::string> feet_and_inches(double feet, std::string_view text) {
  const NumberStart inches = read_number(trimmed(text));
  if (inches.length == 0) return std::nullopt;
  return fmt::format("{:.6g} in", 12 * feet + inches.number);
}

}  // namespace

NumberStart read_number(std::string_view text) {
  const bool plus = text.starts_with('+') && text.size() > 1 &&
                    text[1] != '-' && text[1] != '+';
  const std::string_view digits = text.substr(plus ? 1 : 0);
  NumberStart result;
  const auto [end, error] = std::from_chars(
      digits.data(), digits.data() + digits.size(), result.number);
  if (error == std::errc::invalid_argument) return {};
  if (error == std::errc::result_out_of_range)
    result.number = std::numeric_limits<double>::infinity();
  result.length =
      static_cast<std::size_t>(end - digits.data()) + (plus ? 1 : 0);
  return result;
}

std::optional<std::string> one_number_for(std::string_view text) {
  for (const auto& [glyph, value] : kGlyphs)
    if (text.starts_with(glyph))
      return number_and_unit(value, text.substr(glyph.size()));
  const NumberStart start = read_number(text);
  if (start.length == 0) return std::nullopt;
  const std::string_view rest = text.substr(start.length);
  if (rest.starts_with(','))
    return without_comma(text.substr(0, start.length), rest.substr(1));
  if (rest.starts_with('\''))
    if (const auto inches = feet_and_inches(start.number, rest.substr(1)))
      return inches;
  if (const auto whole = read_fraction(text))
    return number_and_unit(whole->value, whole->rest);
  std::string_view second = trimmed(rest);
  const bool apart = second.size() < rest.size();
  if (second.starts_with('-')) second.remove_prefix(1);
  if (const auto part = read_fraction(second))
    return number_and_unit(
        start.number + (start.number < 0 ? -part->value : part->value),
        part->rest);
  // A blank between thousands.
  if (apart && digits(second) == 3 && digits(text) == start.length)
    return fmt::format("{}{} {}", text.substr(0, start.length),
                       second.substr(0, 3), trimmed(second.substr(3)));
  return std::nullopt;
}

}  // namespace thinspot::io
