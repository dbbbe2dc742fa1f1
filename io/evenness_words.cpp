#include "io/evenness_words.hpp"

#include "io/number_text.hpp"
#include "io/trade_units.hpp"
#include "mesh/digits.hpp"

#include <fmt/format.h>

namespace thinspot::io {

namespace {

using solver::Result;
using solver::ThrowingPower;

/// Along a straight way of that length solution and surface share the voltage
/// as 1 to the Wagner number; what the surface holds back is worth the number
/// times the length of solution.
std::string number_words(double number, double length) {
  const double surface = number / (1 + number);
  const bool placing = surface < 0.5;
  return fmt::format(
      "Wagner number {} over {} mm: {} % of the voltage goes into the {}: {} "
      "more; ways differing by under {} mm plate alike.",
      digits(number, 2), digits(to_mm(length), 2),
      digits(100 * (placing ? 1 - surface : surface), 2),
      placing ? "solution" : "surface",
      placing ? "shape and placing count"
              : "the solution's own evening-out counts",
      digits(to_mm(number * length), 2));
}

std::string percent(double value, const solver::Interval& band) {
  return banded(value, band, "%");
}

std::string throw_words(const ThrowingPower& t) {
  return fmt::format(
      "Throwing power {} by Field, {} by Haring and Blum: of two sides, one "
      "five times as far off as the other, the near one gets {} the far one's "
      "metal.",
      percent(t.field, t.field_band),
      percent(t.haring_blum, t.haring_blum_band),
      banded(t.mass_ratio, t.mass_ratio_band, "times"));
}

}  // namespace

std::string evenness_words(const Result& result) {
  const double number = result.wagner_number;
  if (number <= 0)
    return "Wagner number 0: polarization is left out, so shape and placing "
           "alone decide; a real solution plates a little more evenly.";
  std::string text = number_words(number, result.wagner_length);
  if (!result.used.cathode.at && result.used.cathode.law == solver::Law::linear)
    text +=
        " Polarization is taken as constant, so another current would not "
        "change the evenness.";
  return text;
}

std::string throwing_words(const Result& result) {
  if (const auto& t = result.appraisal.throwing) return throw_words(*t);
  return result.layers.empty()
             ? "Throwing power is not told: the test cell cannot carry this "
               "current density."
             : "";
}

}  // namespace thinspot::io
