// Ranges that are evenly likely, and [[correlated]].
#include "case_text.hpp"
#include "io/quantity_text.hpp"
#include "io/units.hpp"

#include <catch2/catch.hpp>

using namespace thinspot;
using Catch::Matchers::Contains;
using tests::and_also;
using tests::only_problem;
using tests::problems_in;
using tests::read_text;
using tests::sound_case;

namespace {

const std::string kTwo =
    "of = [\"solution.conductivity\", \"cathode.polarization_resistance\"]\n";

/// The sound case with doubts about three quantities.
std::string doubtful(const std::string& lines) { return sound_case() + lines; }

const std::vector<std::string> kDoubts{
    "solution.conductivity=20 S/m +- 3 S/m",
    "cathode.polarization_resistance=2.6 ohm cm2 +- 1 ohm cm2",
    "solution.efficiency=95 % +- 3 %", "step.1.duration=40 min"};

std::string problem_with(const std::string& lines) {
  return only_problem(doubtful(lines), kDoubts);
}

std::string pair(const std::string& a, const std::string& b,
                 const std::string& by) {
  return "[[correlated]]\nof = [\"" + a + "\", \"" + b + "\"]\nby = " + by +
         "\n";
}

const std::string kA = "solution.conductivity",
                  kB = "cathode.polarization_resistance",
                  kC = "solution.efficiency";

}  // namespace

TEST_CASE("a range is evenly likely, a tolerance is not", "[units]") {
  const auto dimension = io::Dimension::conductivity;
  CHECK(io::parse_quantity("16 S/m .. 20 S/m", dimension).evenly);
  CHECK_FALSE(io::parse_quantity("18 S/m +- 2 S/m", dimension).evenly);
  CHECK_FALSE(io::parse_quantity("18 S/m", dimension).evenly);
  CHECK_FALSE(io::parse_quantity("18 S/m .. 18 S/m", dimension).evenly);
  const solver::Quantity q =
      read_text(sound_case(), {"solution.conductivity=16 S/m .. 20 S/m"})
          .content.solution.conductivity;
  CHECK(q.value == Approx(18));
  CHECK(q.plus_minus == Approx(2));
  CHECK(q.evenly);
}

TEST_CASE("a range is written back as a range", "[units]") {
  CHECK(io::conductivity_quantity({18, 2, true}) == "16 S/m .. 20 S/m");
  CHECK(io::conductivity_quantity({18, 2, false}) == "18 S/m +- 2 S/m");
  CHECK(io::conductivity_quantity({18, 0, false}) == "18 S/m");
  const std::string text = io::current_text({0.33, 0.02, true});
  const auto read = io::parse_quantity(text, io::Dimension::current);
  CHECK(read.value == Approx(0.33));
  CHECK(read.plus_minus == Approx(0.02));
  CHECK(read.evenly);
}

TEST_CASE("pairs of quantities that go together are read") {
  const solver::Case c =
      read_text(doubtful("[[correlated]]\n" + kTwo + "by = 0.93\n"),
                {"solution.conductivity=20 S/m +- 3 S/m",
                 "cathode.polarization_resistance=2.6 ohm cm2 +- 1 ohm cm2"})
          .content;
  REQUIRE(c.correlated.size() == 1);
  CHECK(c.correlated[0].of[0] == kA);
  CHECK(c.correlated[0].of[1] == kB);
  CHECK(c.correlated[0].by == 0.93);
  CHECK(read_text(sound_case()).content.correlated.empty());
}

TEST_CASE("what is wrong with a pair is one clear line") {
  CHECK_THAT(problem_with("[[correlated]]\n" + kTwo),
             Contains("correlated.1.by: is missing") && Contains("by = 0.93"));
  CHECK_THAT(problem_with("[[correlated]]\nby = 0.5\n"),
             Contains("correlated.1.of: is missing"));
  CHECK_THAT(problem_with(pair(kA, kB, "1")),
             Contains("would make the two one"));
  CHECK_THAT(problem_with(pair(kA, kB, "-1.5")), Contains("out of range"));
  CHECK_THAT(problem_with(pair(kA, kB, "nan")), Contains("correlated.1.by"));
  CHECK_THAT(problem_with(pair(kA, kA, "0.5")), Contains("twice"));
  CHECK_THAT(problem_with("[[correlated]]\nof = [\"" + kA + "\"]\nby = 0.5\n"),
             Contains("names 1 quantities") && Contains("two that differ"));
  CHECK_THAT(problem_with(pair(kA, "cathode.polarisation_resistance", "0.5")),
             Contains("is \"" + kB + "\" meant?"));
  CHECK_THAT(problem_with(pair(kA, "nowhere", "0.5")),
             Contains("uncertain here are " + kA));
  CHECK_THAT(problem_with(pair(kA, "step.1.duration", "0.5")),
             Contains("step.1.duration is taken as exact here") &&
                 Contains("give it a tolerance"));
  CHECK_THAT(problem_with(pair(kA, kB, "0.5") + pair(kB, kA, "0.5")),
             Contains("correlated.2.of") && Contains("paired already"));
  CHECK_THAT(
      problem_with(pair(kA, kB, "0.9") + pair(kB, kC, "0.9") +
                   pair(kA, kC, "-0.9")),
      Contains("correlated.3.by") && Contains("contradicts the other pairs"));
}
