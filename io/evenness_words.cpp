#include "io/evenness_words.hpp"

#include "io/number_text.hpp"
#include "io/trade_units.hpp"

#include <fmt/format.h>

#include <cmath>

namespace thinspot::io {

namespace {

using solver::Result;

std::string percent(double share) { return digits(100 * share, 2) + " %"; }

std::string throwing(const solver::ThrowingPower& t) {
  const std::string ratio = banded(
      t.mass_ratio, {t.mass_ratio_band.low, t.mass_ratio_band.high}, "times");
  return fmt::format(
      " Throwing power: of two plates, one {} times as far from the anode, the "
      "near one gets {} what the far one does (Haring-Blum cell at {} A/dm²; "
      "Field {}).",
      digits(solver::kDistanceRatio), ratio, digits(to_a_dm2(t.density), 2),
      banded(t.field, t.field_band, "%"));
}

/// Below this what differs is not worth a word.
constexpr double kEven = 0.005;

}  // namespace

std::string wagner_words(const Result& result) {
  const double number = result.wagner_number;
  std::string text;
  if (number <= 0) {
    text =
        "Wagner number 0: polarization is left out, so shape and placing "
        "alone decide; a real solution plates a little more evenly.";
  } else {
    text = fmt::format(
        "Wagner number about {} (over {} mm): of what holds the current back "
        "there, {} is at the surface and evens out, {} is in the solution and "
        "does not.",
        digits(number, 2), digits(to_mm(result.wagner_length), 2),
        percent(number / (1 + number)), percent(1 / (1 + number)));
    if (result.used.cathode.law == solver::Law::linear &&
        !result.used.cathode.at)
      text +=
          " Polarization is taken as constant, so another current would not "
          "change the evenness.";
  }
  if (result.appraisal.throwing) text += throwing(*result.appraisal.throwing);
  return text;
}

std::string why_words(const Result& result) {
  const auto& why = result.appraisal.why;
  if (!why) return "";
  if (why->ideal < kEven)
    return "Shape and placing leave the coating even: there is nothing for "
           "polarization to relieve.";
  std::string text = fmt::format(
      "By shape and placing alone the coating would be off its mean by {} on "
      "average; polarization takes {} of that away and leaves {}.",
      percent(why->ideal), percent(why->relief), percent(why->actual));
  const auto tells = [&](const std::optional<double>& other) {
    return other && std::abs(*other - why->actual) > kEven;
  };
  const bool half = tells(why->half_current);
  const bool twice = tells(why->twice_conductivity);
  if (half)
    text += fmt::format(" Half the current, for twice as long, would leave {}",
                        percent(*why->half_current));
  if (twice)
    text += fmt::format("{} solution that conducts twice as well {}{}",
                        half ? ", a" : " A", half ? "" : "would leave ",
                        percent(*why->twice_conductivity));
  if (half || twice)
    text += "; the rest is for the place of anodes, turning, shields.";
  return text;
}

}  // namespace thinspot::io
