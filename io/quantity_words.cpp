#include "io/quantity_words.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io {

std::string quantity_in_words(std::string_view key) {
  const std::size_t first = key.find('.'), last = key.rfind('.');
  if (first == std::string_view::npos) return std::string(key);
  if (key == "solution.efficiency") return "current efficiency";
  const std::string_view table = key.substr(0, first);
  std::string_view name =
      last > first ? key.substr(first + 1, last - first - 1) : "";
  std::string quantity(key.substr(last + 1));
  if (table == "rack")
    return fmt::format("contact resistance of place {}", quantity);
  std::replace(quantity.begin(), quantity.end(), '_', ' ');
  if (quantity == "conductivity per kelvin")
    return "growth of conductivity per kelvin";
  if (const auto at = quantity.find("tafel"); at != std::string::npos)
    quantity[at] = 'T';
  if (table == "step") {
    const std::size_t dot = name.find('.');
    if (dot == std::string_view::npos)
      return fmt::format("{} of step {}", quantity, name);
    const std::string_view step = name.substr(0, dot);
    name = name.substr(dot + 1);
    constexpr std::string_view kMany = "rectifiers.";
    if (!name.starts_with(kMany))
      return fmt::format("{} of step {}", quantity, step);
    return fmt::format("{} of rectifier {} in step {}", quantity,
                       name.substr(kMany.size()), step);
  }
  if (name.empty()) return fmt::format("{} of the {}", quantity, table);
  return fmt::format("{} of {} {}", quantity, table, name);
}

}  // namespace thinspot::io
