// Current efficiency by current density: reading a table, what it deposits, and
// how a case file gives it.
#include "case_text.hpp"

#include "solver/efficiency.hpp"

#include <catch2/catch.hpp>

using namespace thinspot;
using namespace thinspot::tests;
using Catch::Matchers::Contains;

namespace {

solver::Solution falling() {
  solver::Solution s;
  s.efficiency_table = {{100, 0.9}, {300, 0.7}, {400, 0.5}};
  s.efficiency = {0.9, 0.02};
  solver::refer_efficiency_to(s, 200);
  return s;
}

std::string solution(const std::string& lines) {
  return with(sound_case(), "efficiency = 0.98\n", lines);
}

}  // namespace

TEST_CASE("a table of efficiencies is straight between its points") {
  const solver::Solution s = falling();
  CHECK(s.efficiency.value == Approx(0.8));
  for (const auto& [density, efficiency] : {std::pair{0., 0.9},
                                            {100., 0.9},
                                            {150., 0.85},
                                            {300., 0.7},
                                            {350., 0.6},
                                            {400., 0.5},
                                            {1e5, 0.5}}) {
    CAPTURE(density);
    CHECK(solver::efficiency_at(s, density) == Approx(efficiency));
    CHECK(solver::efficiency_at(s, -density) == Approx(efficiency));
    CHECK(0.8 * solver::depositing(s, density) == Approx(density * efficiency));
    CHECK(solver::depositing(s, -density) == -solver::depositing(s, density));
  }
  solver::Solution none;
  none.efficiency = {0.6, 0};
  CHECK(solver::efficiency_at(none, 123) == 0.6);
  CHECK(solver::depositing(none, 123) == 123);
  CHECK(solver::steepest(none, 0, 1e3) == 1);
}

TEST_CASE("no difference of deposits is steeper than steepest() says") {
  const solver::Solution s = falling();
  for (const auto& [low, high] : {std::pair{0., 90.},
                                  {50., 250.},
                                  {120., 160.},
                                  {310., 390.},
                                  {250., 900.},
                                  {-200., 50.}}) {
    CAPTURE(low, high);
    const double bound = solver::steepest(s, low, high);
    double most = 0;
    constexpr int kPieces = 2000;
    const double h = (high - low) / kPieces;
    for (int k = 0; k < kPieces; ++k) {
      const double a = low + k * h;
      most = std::max(most, std::abs(solver::depositing(s, a + h) -
                                     solver::depositing(s, a)) /
                                h);
    }
    CHECK(most <= bound * (1 + 1e-9));
    // Second derivatives are at most 2 * 0.002 / 0.8.
    CHECK(most >= bound - 2 * h * 0.005);
  }
}

TEST_CASE("a case file gives efficiencies by current density") {
  const solver::Solution s =
      read_text(solution("efficiency = [\"95 % +- 3 %\", 0.8]\n"
                         "efficiency_at = [\"1 A/dm2\", \"6 A/dm2\"]\n"))
          .content.solution;
  REQUIRE(s.efficiency_table.size() == 2);
  CHECK(s.efficiency_table[1].density == Approx(600));
  CHECK(solver::efficiency_at(s, 100) == Approx(0.95));
  CHECK(solver::efficiency_at(s, 350) == Approx(0.875));
  CHECK(s.efficiency.plus_minus == Approx(0.03));

  const auto problem = [](const std::string& lines) {
    return only_problem(solution(lines));
  };
  CHECK_THAT(problem("efficiency = [0.9, 0.8]\n"),
             Contains("without efficiency_at"));
  CHECK_THAT(problem("efficiency_at = [\"1 A/dm2\", \"2 A/dm2\"]\n"),
             Contains("stands without efficiency"));
  CHECK_THAT(problem("efficiency = [0.9, 0.8]\n"
                     "efficiency_at = [\"1 A/dm2\"]\n"),
             Contains("as many of one as of the other"));
  CHECK_THAT(problem("efficiency = [0.9, 0.8]\n"
                     "efficiency_at = [\"2 A/dm2\", \"2 A/dm2\"]\n"),
             Contains("does not rise"));
  CHECK_THAT(problem("efficiency = [0.9, 0.2]\n"
                     "efficiency_at = [\"1 A/dm2\", \"2 A/dm2\"]\n"),
             Contains("less metal"));
  CHECK_THAT(problem("efficiency = 0.9\n"
                     "efficiency_at = \"1 A/dm2\"\n"),
             Contains("two or more"));
  CHECK_THAT(problem("efficiency = []\nefficiency_at = []\n"),
             Contains("efficiency"));
}
