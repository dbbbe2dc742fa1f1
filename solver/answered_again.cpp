#include "solver/answered_again.hpp"

#include "solver/deposit.hpp"
#include "solver/outcome.hpp"
#include "solver/step_case.hpp"

#include <utility>

namespace thinspot::solver {

AnsweredPhases answered_phases(const Schedule& s, const Case& c,
                               std::size_t first_step,
                               std::size_t first_phase) {
  const auto angle = s.angles.begin() + static_cast<std::ptrdiff_t>(first_step);
  const Case all =
      expanded(c, {angle, angle + static_cast<std::ptrdiff_t>(c.steps.size())})
          .content;
  AnsweredPhases answered;
  for (std::size_t k = 0; k < all.steps.size(); ++k) {
    const SolvedStep& before = s.steps[first_phase + k];
    Case& used = answered.used.emplace_back(case_of_step(all, k));
    if (!used.probes.empty()) used.probes = before.used.probes;  // moved along
    answered.growth.push_back(growth_per_density(used));
    std::shared_ptr<const Outcome> outcome;
    for (std::size_t j = 0; j < k && !outcome; ++j)
      if (s.steps[first_phase + j].solved == before.solved &&
          same_field(answered.used[j], used))
        outcome = answered.outcomes[j];
    if (!outcome)
      outcome = std::make_shared<const Outcome>(evaluate(
          before.solved->model, used, {&before.solved->outcome.point, true}));
    answered.outcomes.push_back(std::move(outcome));
  }
  return answered;
}

Schedule answered_again(const Schedule& schedule, const Case& c) {
  AnsweredPhases answered = answered_phases(schedule, c);
  Schedule s = schedule;
  s.growth.reset();
  std::vector<const Outcome*> outcomes;
  for (const auto& outcome : answered.outcomes)
    outcomes.push_back(outcome.get());
  Laid laid = lay_down(s, c, outcomes, answered.growth);
  s.coats = std::move(laid.coats);
  s.spreads = std::move(laid.spreads);
  for (std::size_t k = 0; k < s.steps.size(); ++k) {
    SolvedStep& step = s.steps[k];
    step.used = std::move(answered.used[k]);
    step.growth = answered.growth[k];
    std::size_t first = 0;
    while (answered.outcomes[first] != answered.outcomes[k]) ++first;
    if (first < k) {
      step.solved = s.steps[first].solved;
      continue;
    }
    auto again = std::make_shared<Certified>(*schedule.steps[k].solved);
    again->outcome = *answered.outcomes[k];
    step.solved = std::move(again);
  }
  add_up_probes(s, c);
  return s;
}

Schedule certified_again(const Schedule& schedule, const Case& c) {
  Schedule s = answered_again(schedule, c);
  certify_as_it_stands(s, c);
  return s;
}

}  // namespace thinspot::solver
