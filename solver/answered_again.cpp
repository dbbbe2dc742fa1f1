#include "solver/answered_again.hpp"

#include "solver/deposit.hpp"
#include "solver/step_case.hpp"

#include <cstddef>
#include <memory>
#include <utility>
#include <vector>

namespace thinspot::solver {

Schedule answered_again(const Schedule& schedule, const Case& c) {
  Schedule s = schedule;
  s.growth.reset();
  const Case all = expanded(c, s.angles).content;
  std::vector<const Outcome*> outcomes;
  std::vector<double> growth;
  for (std::size_t k = 0; k < s.steps.size(); ++k) {
    SolvedStep& step = s.steps[k];
    const Certified& old = *schedule.steps[k].solved;
    std::vector<Probe> probes = std::move(step.used.probes);
    step.used = case_of_step(all, k);
    step.used.probes = std::move(probes);  // where they are in this step
    step.growth = growth_per_density(step.used);
    std::size_t first = 0;
    while (schedule.steps[first].solved.get() != &old) ++first;
    if (first < k) {
      step.solved = s.steps[first].solved;
    } else {
      auto again = std::make_shared<Certified>(old);
      again->outcome = evaluate(old.model, step.used, &old.outcome.point);
      step.solved = std::move(again);
    }
    outcomes.push_back(&step.solved->outcome);
    growth.push_back(step.growth);
  }
  Laid laid = lay_down(s, c, outcomes, growth);
  s.coats = std::move(laid.coats);
  s.spreads = std::move(laid.spreads);
  add_up_probes(s, c);
  return s;
}

}  // namespace thinspot::solver
