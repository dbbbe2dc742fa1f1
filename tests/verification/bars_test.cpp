// What the mesh's error bars promise, on set-ups whose truth is a far finer
// solution; tests/population asks the same of many set-ups drawn by lot.
#include "bench_cases.hpp"
#include "solver/certify.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace thinspot;

namespace {

/// A hundredth of the tolerance is asked of what stands for the truth.
solver::Certified truth_of(solver::Case c) {
  c.accuracy.tolerance /= 100;
  return solver::certify(solver::build_model(c), c);
}

void check_bars(const solver::Certified& s, const solver::Certified& truth) {
  REQUIRE(truth.within);
  for (std::size_t p = 0; p < s.outcome.parts.size(); ++p) {
    const solver::Spread& a = s.outcome.parts[p].current_density_spread;
    const solver::Spread& b = truth.outcome.parts[p].current_density_spread;
    const solver::MeshErrors::OfPart& e = s.errors.parts[p];
    const solver::MeshErrors::OfPart& f = truth.errors.parts[p];
    CHECK(std::abs(a.min - b.min) <= e.least + f.least);
    CHECK(std::abs(a.mean - b.mean) <= e.mean + f.mean);
    CHECK(std::abs(a.max - b.max) <= e.largest + f.largest);
  }
  CHECK(std::abs(s.outcome.point.terminal_voltage -
                 truth.outcome.point.terminal_voltage) <=
        s.errors.voltage + truth.errors.voltage);
}

double worst_bar(const solver::MeshErrors& errors,
                 const solver::Outcome& outcome) {
  const solver::MeshErrors::OfPart& e = errors.parts[0];
  return std::max({e.least, e.mean, e.largest}) /
         outcome.parts[0].current_density_spread.mean;
}

}  // namespace

TEST_CASE("bars stay true where a re-solve changes R tenfold", "[property]") {
  const solver::Case stated = tests::token();
  const double factor = GENERATE(10.0, 0.1);
  CAPTURE(factor);
  solver::Case other = stated;
  other.cathode.resistance.value *= factor;
  solver::Certified first =
      solver::certify(solver::build_model(stated), stated);
  // On the old mesh the bar is that of the new resistance, not a stale one.
  const solver::Outcome on_old = solver::evaluate(first.model, other);
  const solver::MeshErrors old_mesh =
      solver::estimate_errors(first.model, other, on_old).errors;
  if (factor < 1)
    CHECK(worst_bar(old_mesh, on_old) > worst_bar(first.errors, first.outcome));
  const solver::Certified second =
      solver::certify(std::move(first.model), other);
  CHECK(second.within);
  CHECK(worst_bar(second.errors, second.outcome) <= other.accuracy.tolerance);
  check_bars(second, truth_of(other));
}

TEST_CASE("a slope far from its stated current density is meshed for",
          "[property]") {
  // Stated at 20 A/m2 and used at 184: R is nine times smaller than stated.
  solver::Case c = tests::token();
  c.cathode.at = 20;
  c.cathode.resistance.value = 2.6e-4;
  const solver::Certified s = solver::certify(solver::build_model(c), c);
  REQUIRE(s.outcome.point.laws[0].resistance < 0.2 * 2.6e-4);
  CHECK(s.within);
  check_bars(s, truth_of(c));
}

TEST_CASE("a finer tolerance costs a finer mesh and keeps its word",
          "[property]") {
  solver::Case c = tests::token();
  Eigen::Index first = 0, last = 0;
  const solver::Certified truth = truth_of([&] {
    solver::Case finest = c;
    finest.accuracy.tolerance = 1e-4;
    return finest;
  }());
  for (double tolerance : {1e-2, 1e-3, 1e-4}) {
    CAPTURE(tolerance);
    c.accuracy.tolerance = tolerance;
    const solver::Certified s = solver::certify(solver::build_model(c), c);
    CHECK(s.within);
    CHECK(worst_bar(s.errors, s.outcome) <= tolerance);
    CHECK(s.model.mesh.nodes.cols() >= last);
    last = s.model.mesh.nodes.cols();
    if (first == 0) first = last;
    check_bars(s, truth);
  }
  CHECK(last > first);
}

TEST_CASE("without an error there is next to no bar", "[property]") {
  // A field linear from plate to plate, which the elements hold exactly.
  const solver::Case c = tests::channel(0.1, 0.03, 5, 1e-3, 2e-4, 1);
  const solver::Certified s = solver::certify(solver::build_model(c), c);
  CHECK(s.rounds == 0);
  const double mean = s.outcome.parts[0].current_density_spread.mean;
  // 1e-9 of the value is the allowance for rounding.
  CHECK(s.errors.parts[0].least < 2e-9 * mean);
  CHECK(s.errors.parts[0].largest < 2e-9 * mean);
}
