// Layouts that a plan looks at in a second: with the part kept and the tank
// around it meshed, with all meshed anew, by a full solve with its error bars
// for each, and by a loop of a general finite-element program. One layout is
// the token before its sheet at another distance, at the current at which its
// densest place comes to a bound. Then whole plans.
#include "solver/certify.hpp"
#include "solver/plan.hpp"
#include "solver/plan_limits.hpp"
#include "tests/bench/another_program.hpp"
#include "tests/bench/timing.hpp"
#include "tests/verification/bench_cases.hpp"

#include <fmt/format.h>

#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <thread>
#include <vector>

using namespace thinspot;

namespace {

constexpr int kLayouts = 60;

solver::Case wanted(solver::Case c) {
  c.target.thickness = 10e-6;
  c.target.burning_current_density = 500;
  for (mesh::Solid& s : c.section.solids)
    if (s.role == mesh::Role::anode) s.key = "anode." + s.name;
  return c;
}

/// The sheet from 36 to 20 mm off the token.
solver::Case at(int k) {
  solver::Case c = wanted(tests::token());
  c.section.solids[1].at.x() = 0.0068 + 0.016 * k / (kLayouts - 1);
  return c;
}

/// @returns seconds for each
template <class Work>
double each(Work work) {
  work(0);
  return bench::seconds_of([&] {
           for (int k = 0; k < kLayouts; ++k) work(k);
         }) /
         kLayouts;
}

void look(int k, solver::FreePart* part) {
  const solver::Case c = at(k);
  solver::Layout layout(c, part);
  solver::best_current(layout, c.steps, 0, {0.1, 5}, solver::plan_limits(c));
}

double by_search(solver::FreePart* part) {
  return each([&](int k) { look(k, part); });
}

/// The same in a process for each processor, as a plan does it.
double by_search_on_all(bool keep_part) {
  const unsigned count = std::max(1u, std::thread::hardware_concurrency());
  std::fflush(stdout);
  const double seconds = bench::seconds_of([&] {
    std::vector<pid_t> all;
    for (unsigned p = 0; p < count; ++p) {
      const pid_t child = ::fork();
      if (child == 0) {
        solver::FreePart part(at(0));
        by_search(keep_part ? &part : nullptr);
        std::_Exit(0);
      }
      all.push_back(child);
    }
    for (pid_t child : all) ::waitpid(child, nullptr, 0);
  });
  return seconds / (count * (kLayouts + 1.0));
}

/// Thinnest over mean at the current as drawn, every twelfth.
double off(solver::FreePart* part, const std::vector<double>& full) {
  double most = 0;
  for (int k = 0; k < kLayouts; k += 12) {
    const solver::Case c = at(k);
    solver::Layout layout(c, part);
    const solver::Yield y = layout.yield(c.steps, 1);
    most = std::max(
        most,
        std::abs(y.least / y.mean / full[static_cast<std::size_t>(k)] - 1));
  }
  return most;
}

double by_full_solves(std::vector<double>& least) {
  least.assign(kLayouts, 0);
  return each([&](int k) {
    const solver::Case c = at(k);
    const solver::Certified s = solver::certify(solver::build_model(c), c);
    const solver::PartOutcome& part = s.outcome.parts[0];
    least[static_cast<std::size_t>(k)] =
        part.least_judged.value / part.current_density_spread.mean;
  });
}

void print(const char* how, double seconds, double reference) {
  fmt::print("  {:36} {:7.2f} ms, {:6.0f} a minute, {:5.1f} times\n", how,
             1e3 * seconds, 60 / seconds, reference / seconds);
}

void print_plan(const char* what, const solver::Case& c) {
  const solver::Plan p = solver::plan(c);
  fmt::print("  {:36} {:5.2f} s, {} layouts, {} candidates\n", what, p.seconds,
             p.layouts, p.candidates);
}

}  // namespace

int main() {
  solver::FreePart part(at(0));
  std::vector<double> full;
  const double with_part = by_search(&part);
  const double without = by_search(nullptr);
  const double by_full = by_full_solves(full);
  const double other =
      bench::by_another_program("plan_loop.edp").seconds / kLayouts;
  fmt::print("one layout, on one processor, against a full solve:\n");
  print("part kept, tank meshed", with_part, by_full);
  print("all meshed anew", without, by_full);
  print("full solve with error bars, as drawn", by_full, by_full);
  if (other > 0) print("another program's loop, 1 V", other, by_full);
  print("part kept, on all processors", by_search_on_all(true), by_full);
  print("all meshed anew, on all processors", by_search_on_all(false), by_full);
  fmt::print("  thinnest over mean is off by at most {:.1e} and {:.1e}\n",
             off(&part, full), off(nullptr, full));
  fmt::print("plans, on all processors:\n");
  solver::Case c = wanted(tests::token());
  c.plan.most_anodes = 2;
  c.plan.most_turns = 3;
  print_plan("token, two sheets, four positions", c);
  c.plan.goal = solver::PlanGoal::evenness;
  print_plan("the same for evenness", c);
}
