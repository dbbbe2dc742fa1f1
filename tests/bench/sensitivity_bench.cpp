// Time for how the thinnest judged spot goes by every input of a case: one dual
// of the cell, against moving each input to either side and solving again on
// the same mesh, as the error bars do.
#include "solver/sensitivity.hpp"
#include "solver/step_case.hpp"
#include "tests/bench/timing.hpp"
#include "tests/verification/bench_cases.hpp"

#include <fmt/format.h>

using namespace thinspot;
using bench::median_of;

namespace {

void print_times(const char* name, const solver::Case& c) {
  const solver::Schedule s = solver::run_schedule(c);
  const solver::SolvedStep& step = s.steps.front();
  std::size_t inputs = 0;
  const double dual = median_of(25, [&] {
    const auto by =
        solver::sensitivities(s, c, {{solver::FigureOf::Kind::least_judged, 0}})
            .figures.front()
            .by;
    inputs = static_cast<std::size_t>(
        std::count_if(by.begin(), by.end(),
                      [](const auto& slope) { return slope.has_value(); }));
  });
  const double moving = median_of(5, [&] {
    solver::Case moved = c;
    solver::for_each_quantity(
        moved, [&](const std::string&, solver::Quantity& q) {
          const double value = q.value;
          if (value == 0) return;
          for (double share : {-0.01, 0.01}) {
            q.value = value * (1 + share);
            solver::evaluate(step.solved->model, solver::case_of_step(moved, 0),
                             {&step.solved->outcome.point, true});
          }
          q.value = value;
        });
  });
  fmt::print(
      "{}: by {} inputs, {} rows on metal: {:.2f} ms by one dual, {:.2f} ms by "
      "moving each, {:.0f} times as long\n",
      name, inputs, step.solved->model.response.condensed().rows(), dual,
      moving, moving / dual);
}

}  // namespace

int main() {
  solver::Case c = tests::token();
  print_times("token", c);
  c.accuracy.tolerance = 1e-4;
  print_times("token within 0.01 %", c);
  c.cathode = {};
  c.cathode.law = solver::Law::butler_volmer;
  c.cathode.exchange_current_density.value = 1;
  c.cathode.tafel_slope.value = c.cathode.reverse_tafel_slope.value = 0.12;
  print_times("the same with a curved law", c);
}
