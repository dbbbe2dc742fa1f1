#include "io/why_words.hpp"

#include "mesh/digits.hpp"

#include <fmt/format.h>

#include <cmath>

namespace thinspot::io {

namespace {

using solver::Result;

std::string percent(double share) { return digits(100 * share, 2) + " %"; }

/// Below this what differs is not worth a word.
constexpr double kEven = 0.005;

/// What polarization makes of it.
std::string relief(const Result& result, const solver::Why& why) {
  const char* what = result.used.solution.efficiency_table.empty()
                         ? "polarization"
                         : "polarization and efficiency";
  if (why.relief < 0)
    return fmt::format("with {} it is {}.", what, percent(why.actual));
  return fmt::format("{} takes {} of that away and leaves {}.", what,
                     percent(why.relief), percent(why.actual));
}

}  // namespace

std::string why_words(const Result& result) {
  const auto& why = result.appraisal.why;
  if (!why) return "";
  if (why->ideal < kEven)
    return "Shape and placing leave the coating even: there is nothing for "
           "polarization to relieve.";
  std::string text = fmt::format(
      "By shape and placing alone the coating would be off its mean by {} on "
      "average; {}",
      percent(why->ideal), relief(result, *why));
  const auto tells = [&](const std::optional<double>& other) {
    return other && std::abs(*other - why->actual) > kEven;
  };
  const bool half = tells(why->half_current);
  const bool twice = tells(why->twice_conductivity);
  if (half)
    text += fmt::format(" Half the current, for twice as long, would leave {}",
                        percent(*why->half_current));
  if (twice)
    text += fmt::format(
        "{} solution that conducts twice as well{}{} {}", half ? ", a" : " A",
        why->half_current ? "" : ", at the same voltage,",
        half ? "" : " would leave", percent(*why->twice_conductivity));
  if (half || twice) text += ".";
  return text;
}

}  // namespace thinspot::io
