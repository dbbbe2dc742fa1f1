#include "solver/plan.hpp"

#include "solver/plan_figures.hpp"
#include "solver/simulate.hpp"
#include "solver/stopwatch.hpp"

#include <memory>
#include <utility>

namespace thinspot::solver {

Plan plan(const Case& c, const Progress& progress) {
  const Stopwatch watch;
  Plan plan;
  plan.drawn.name = "as drawn";
  plan.drawn.content = c;
  plan.drawn.result = std::make_shared<const Result>(simulate(c, progress));
  plan.drawn.figures = plan_figures(*plan.drawn.result);
  plan.set_ups.push_back(plan.drawn);
  plan.seconds = watch.seconds();
  return plan;
}

}  // namespace thinspot::solver
