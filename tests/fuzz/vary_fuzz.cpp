// What --vary says.
#include "io/sweep_axis.hpp"
#include "tests/fuzz/target.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace thinspot::fuzz {

namespace {

/// "…:31415": right, and no news after the first time.
bool has_many_values(std::string_view text) {
  const auto colon = text.rfind(':');
  if (colon == std::string_view::npos) return false;
  const auto digits =
      std::count_if(text.begin() + static_cast<std::ptrdiff_t>(colon),
                    text.end(), [](char c) { return c >= '0' && c <= '9'; });
  return digits > 3;
}

void require_values(const io::SweepAxis& axis) {
  require(!axis.key.empty() && !axis.texts.empty(), "it sets a key");
  require(axis.has_words() || axis.numbers.size() == axis.texts.size(),
          "each text has its number");
  require(std::set(axis.texts.begin(), axis.texts.end()).size() ==
              axis.texts.size(),
          "each value stands once");
  for (const double number : axis.numbers)
    require(std::isfinite(number), "numbers are finite");
  for (const double share : {0.0, 0.3, 1.0}) {
    require(axis.value_at(share) < axis.texts.size(), "a share has its value");
    if (!axis.anywhere) continue;
    const double number = axis.number_at(share);
    require(number >= axis.numbers.front() && number <= axis.numbers.back(),
            "a share of a range lies in it");
  }
}

/// The values of a range, written out.
void require_list(const io::SweepAxis& axis) {
  std::string vary;
  for (const std::string& text : axis.texts)
    vary += (vary.empty() ? axis.key + "=" : ",") + text;
  const io::SweepAxis list = io::sweep_axis(vary);
  require(list.numbers == axis.numbers && list.unit == axis.unit,
          "the values of a range, written out, are the same");
}

}  // namespace

bool one_input(std::string_view bytes) {
  if (has_many_values(bytes)) return false;
  try {
    const io::SweepAxis axis = io::sweep_axis(std::string(bytes));
    require_values(axis);
    // A comma or a bracket in a unit would part a list.
    if (!axis.has_words() &&
        axis.unit.find_first_of(",[]{}'\"") == std::string::npos)
      require_list(axis);
  } catch (const InputError& error) {
    require_clear(error);
  }
  return true;
}

}  // namespace thinspot::fuzz
