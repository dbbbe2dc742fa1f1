#include "io/unit_meaning.hpp"

#include "io/unit_names.hpp"

#include <functional>
#include <map>
#include <mutex>
#include <shared_mutex>

namespace thinspot::io {

namespace {

/// Units with what they mean, those of a dimension apart.
struct Memory {
  std::map<Dimension, std::map<std::string, UnitMeaning, std::less<>>> of;
  std::size_t count = 0;
  std::shared_mutex changing;
};

Memory& memory() {
  static Memory all;
  return all;
}

}  // namespace

UnitMeaning found_meaning(std::string_view unit, Dimension dimension) {
  using Status = UnitConversion::Status;
  const UnitName name = udunits_name(unit, dimension);
  UnitMeaning result{{}, name.hint};
  if (!name.hint.empty() || name.spelling.empty()) return result;
  result.conversion = conversion_to_si(name.spelling, dimension);
  if (result.conversion.status == Status::unknown_unit)
    result.conversion = conversion_to_si(small_words(name.spelling), dimension);
  return result;
}

UnitMeaning unit_meaning(std::string_view unit, Dimension dimension) {
  // A longer one is refused without much work.
  if (unit.size() > kLongestRemembered) return found_meaning(unit, dimension);
  Memory& m = memory();
  {
    const std::shared_lock lock(m.changing);
    const auto units = m.of.find(dimension);
    if (units != m.of.end()) {
      const auto known = units->second.find(unit);
      if (known != units->second.end()) return known->second;
    }
  }
  const UnitMeaning found = found_meaning(unit, dimension);
  const std::unique_lock lock(m.changing);
  if (m.count < kMostRemembered &&
      m.of[dimension].emplace(std::string(unit), found).second)
    ++m.count;
  return found;
}

std::size_t remembered_units() {
  Memory& m = memory();
  const std::shared_lock lock(m.changing);
  return m.count;
}

}  // namespace thinspot::io
