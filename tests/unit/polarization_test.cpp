// What holds of every law that is listed: its slope, its inverse and its
// derivatives are those of its own curve, and page and theory know it.
#include "solver/polarization.hpp"
#include "solver/laws.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <fstream>
#include <iterator>
#include <string>

using namespace thinspot;
using namespace thinspot::solver;

namespace {

/// A share of each number, and of b, by which differences are taken: their own
/// error is its square, that of rounding 1e-16 over it.
constexpr double kStep = 1e-5;
constexpr double kNear = 1e-8;

struct Numbers {
  double resistance = 2.6e-4, exchange = 10, slope = 0.12, reverse = 0.09;
  double limit = 400;
};

LawCurve curve_of(Law law, const Numbers& n, bool limited) {
  Polarization p;
  p.law = law;
  p.resistance.value = n.resistance;
  p.exchange_current_density.value = n.exchange;
  p.tafel_slope.value = n.slope;
  p.reverse_tafel_slope.value = n.reverse;
  Solution s;
  s.metal.electrons = 2;
  return {p, s, limited ? std::optional(n.limit) : std::nullopt};
}

std::string text_of(const std::string& file) {
  std::ifstream in(THINSPOT_SOURCE_DIR "/" + file);
  REQUIRE(in);
  return {std::istreambuf_iterator<char>(in), {}};
}

}  // namespace

TEST_CASE("every law is its own slope and inverse", "[laws]") {
  for (const LawKind& kind : law_kinds())
    for (const bool limited : {false, true}) {
      const LawCurve curve = curve_of(kind.law, {}, limited);
      for (const double over : {-0.03, 0.02, 0.08}) {
        CAPTURE(std::string(kind.word), limited, over);
        const auto [density, slope] = curve.at(over);
        const double h = kStep * Numbers{}.slope;
        CHECK(slope > 0);
        CHECK((curve.at(over + h).density - curve.at(over - h).density) /
                  (2 * h) ==
              Approx(slope).epsilon(kNear));
        REQUIRE(curve.over(density).has_value());
        CHECK(*curve.over(density) == Approx(over).epsilon(kNear));
      }
    }
}

TEST_CASE("every law goes by its numbers as it says", "[laws]") {
  const auto [number, by] =
      GENERATE(table<double Numbers::*, double LawCurve::ByNumbers::*>(
          {{&Numbers::resistance, &LawCurve::ByNumbers::resistance},
           {&Numbers::exchange, &LawCurve::ByNumbers::exchange},
           {&Numbers::slope, &LawCurve::ByNumbers::slope},
           {&Numbers::reverse, &LawCurve::ByNumbers::reverse},
           {&Numbers::limit, &LawCurve::ByNumbers::limit}}));
  for (const LawKind& kind : law_kinds())
    for (const bool limited : {false, true})
      for (const double over : {-0.03, 0.02, 0.08}) {
        CAPTURE(std::string(kind.word), limited, over);
        const auto at = [&](double share) {
          Numbers moved;
          moved.*number *= 1 + share;
          return curve_of(kind.law, moved, limited).at(over).density;
        };
        const LawCurve curve = curve_of(kind.law, {}, limited);
        // Of one that nothing bounds, a bound is no number.
        if (!limited && by == &LawCurve::ByNumbers::limit) continue;
        CHECK((at(kStep) - at(-kStep)) / (2 * kStep) ==
              Approx(curve.by_numbers(over).*by * (Numbers{}.*number))
                  .margin(kNear * std::abs(curve.at(over).density)));
      }
}

TEST_CASE("every law has a word, on the page and in its scripts", "[laws]") {
  const std::string theory = text_of("docs/theory.md");
  const std::string script = text_of("viz/page/what_if_laws.js");
  const auto has = [](const std::string& text, const std::string& words) {
    return text.find(words) != std::string::npos;
  };
  for (const LawKind& kind : law_kinds()) {
    const std::string word(kind.word);
    CHECK(find_law(word) == kind.law);
    CHECK(word_of(kind.law) == word);
    INFO(word << ": a row of the table of laws in docs/theory.md, and a branch "
                 "of lawCurve in viz/page/what_if_laws.js");
    CHECK(has(theory, "| `" + word + "`"));
    CHECK(has(script, "curve.kind === \"" + word + "\""));
  }
  CHECK_FALSE(find_law("straight"));
}
