#include "io/gas_words.hpp"

#include "mesh/digits.hpp"

#include <fmt/format.h>

namespace thinspot::io {

namespace {

// Below, nobody sees a bubble and no room minds.
constexpr double kLeast = 1e-6;  // [m3]

std::string volume(double m3) {
  return m3 < 1e-3 ? digits(1e6 * m3, 2) + " ml" : digits(1e3 * m3, 2) + " l";
}

}  // namespace

std::string gas_words(const solver::Gas& gas) {
  std::string text;
  const auto add = [&](const std::string& more) {
    text += (text.empty() ? "Gas in all steps: " : "; ") + more;
  };
  if (gas.hydrogen >= kLeast)
    add(fmt::format("about {} of hydrogen at the part", volume(gas.hydrogen)));
  if (gas.oxygen >= kLeast)
    add(fmt::format("up to {} of oxygen at the inert anodes",
                    volume(gas.oxygen)));
  if (gas.chlorine >= kLeast)
    add(
        fmt::format("in its place up to {} of chlorine, which is poisonous: "
                    "do not run this solution with inert anodes",
                    volume(gas.chlorine)));
  if (text.empty()) return text;
  // 4 % by volume: lower limit in air, standard handbook value, from memory.
  if (gas.hydrogen >= kLeast)
    text +=
        ". Hydrogen explodes in air from 4 % by volume: moving air, no lid, no "
        "flame, no spark.";
  else
    text += ". Moving air, and do not breathe the mist.";
  return text;
}

}  // namespace thinspot::io
