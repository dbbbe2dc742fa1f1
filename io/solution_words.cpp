#include "io/solution_words.hpp"

#include "io/trade_units.hpp"
#include "mesh/digits.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io {

namespace {

using solver::Quantity;
using solver::Solution;

/// "20 S/m (16 to 24)"; without the brackets where it is taken as exact.
std::string with_band(const Quantity& q, double unit, const char* name) {
  std::string text = fmt::format("{} {}", digits(q.value * unit, 2), name);
  if (q.plus_minus > 0)
    text +=
        fmt::format(" ({} to {})", digits((q.value - q.plus_minus) * unit, 2),
                    digits((q.value + q.plus_minus) * unit, 2));
  return text;
}

std::string how_sure(const Solution& s, const std::string& key) {
  const auto found =
      std::find_if(s.sources.begin(), s.sources.end(),
                   [&](const solver::Provenance& p) { return p.key == key; });
  return found == s.sources.end() ? "" : ", " + found->sure;
}

}  // namespace

std::string solution_in_words(const Solution& s) {
  std::string text = fmt::format(
      "{} at {} °C: {}{}", s.name, digits(to_deg_c(s.temperature)),
      with_band(s.conductivity, 1, "S/m"), how_sure(s, "conductivity"));
  if (!s.acidity.empty()) text += "; " + s.acidity;
  if (s.metal_concentration)
    text += fmt::format("; {} g/l {}",
                        digits(*s.metal_concentration * s.metal.molar_mass, 2),
                        s.metal.name);
  if (s.limiting_current_density)
    text += fmt::format("; it can bring metal for {}{}",
                        with_band(*s.limiting_current_density, 1e-2, "A/dm²"),
                        how_sure(s, "limiting_current_density"));
  return text + ".";
}

}  // namespace thinspot::io
