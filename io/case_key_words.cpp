#include "io/case_key_words.hpp"

#include <fmt/format.h>

#include <cmath>

namespace thinspot::io {

std::string range_text(const Limits& limits) {
  return fmt::format("{} .. {}", limits.low, limits.high);
}

bool within(double value, const Limits& limits) {
  constexpr double kRounding = 1e-12;
  const double low = parse_quantity(limits.low, limits.dimension).value;
  const double high = parse_quantity(limits.high, limits.dimension).value;
  return value >= low - kRounding * std::abs(low) &&
         value <= high + kRounding * std::abs(high);
}

std::string example_of(const KeyInfo& info) {
  const std::string_view quantity = dimension_example(info.limits.dimension);
  switch (info.form) {
    case Form::text:
    case Form::name: return fmt::format("{} = \"\u2026\"", info.name);
    case Form::choice:
      return fmt::format("{} = \"{}\"", info.name, info.choices.front());
    case Form::flag: return fmt::format("{} = true", info.name);
    case Form::whole: return fmt::format("{} = 1", info.name);
    case Form::factor:
      return fmt::format("{} = {}", info.name,
                         info.example.empty() ? "25.4" : info.example);
    case Form::value:
    case Form::quantities:
    case Form::values:
    case Form::quantity: return fmt::format("{} = \"{}\"", info.name, quantity);
    case Form::point:
      return fmt::format("{} = [\"45 mm\", \"50 mm\"]", info.name);
    case Form::points:
      return fmt::format(
          "{} = [[\"30 mm\", \"50 mm\"], [\"60 mm\", \"50 mm\"]]", info.name);
    case Form::texts:
      return fmt::format("{} = {}", info.name,
                         info.example.empty() ? "[\"left\"]" : info.example);
    case Form::names: return fmt::format("{} = [\"sheet\"]", info.name);
    case Form::value_pair:
      return fmt::format("{} = [\"0.5 A/dm2\", \"4 A/dm2\"]", info.name);
    case Form::table:
      return fmt::format("{} = {{ {} }}", info.name, info.example);
  }
  return std::string(info.name);
}

}  // namespace thinspot::io
