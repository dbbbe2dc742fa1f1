// Time from a case to certified figures: geometry, mesh, solve, estimate,
// refine, on one core; with the bar that comes out, and how far the figures
// really are off against a solution a hundred times finer.
#include "solver/certify.hpp"
#include "tests/verification/bench_cases.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <vector>

using namespace thinspot;

namespace {

double seconds_of(const solver::Case& c) {
  const auto start = std::chrono::steady_clock::now();
  const solver::Certified s = solver::certify(solver::build_model(c), c);
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start)
      .count();
}

void print_error(const char* name, double value, double truth, double bar,
                 double mean) {
  fmt::print(
      "  {:8} off {:.1e} of the mean, bar {:.1e}, bar over error {:.1f}\n",
      name, std::abs(value - truth) / mean, bar / mean,
      bar / std::abs(value - truth));
}

}  // namespace

int main() {
  for (double tolerance : {1e-3, 1e-4}) {
    solver::Case c = tests::token();
    c.accuracy.tolerance = tolerance;
    seconds_of(c);  // loads what is loaded once
    std::vector<double> times;
    for (int k = 0; k < 15; ++k) times.push_back(seconds_of(c));
    std::sort(times.begin(), times.end());
    const solver::Certified s = solver::certify(solver::build_model(c), c);
    solver::Case finer = c;
    finer.accuracy.tolerance /= 100;
    const solver::Certified truth =
        solver::certify(solver::build_model(finer), finer);
    fmt::print(
        "coin within {:g} %: {:.1f} ms at least, {:.1f} ms median; {} "
        "unknowns, "
        "{} rounds\n",
        100 * tolerance, 1e3 * times.front(), 1e3 * times[times.size() / 2],
        s.model.mesh.nodes.cols(), s.rounds);
    const solver::Spread& a = s.outcome.parts[0].current_density_spread;
    const solver::Spread& b = truth.outcome.parts[0].current_density_spread;
    const solver::MeshErrors::OfPart& e = s.errors.parts[0];
    print_error("least", a.min, b.min, e.least, b.mean);
    print_error("mean", a.mean, b.mean, e.mean, b.mean);
    print_error("largest", a.max, b.max, e.largest, b.mean);
  }
}
