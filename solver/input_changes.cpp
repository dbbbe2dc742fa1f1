#include "solver/input_changes.hpp"

#include "solver/correlation.hpp"
#include "solver/deposit.hpp"
#include "solver/step_case.hpp"
#include "solver/step_inputs.hpp"
#include "solver/turning.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace thinspot::solver {

namespace {

using Eigen::VectorXd;

/// Of a quantity, to either side; of one that is 0 in its own unit, little
/// against what resistances and offsets come to.
constexpr double kShare = 1e-5, kFromZero = 1e-6;
/// Slopes to either side that differ by more are of a bend: by the curve of
/// what is smooth they differ by kShare.
constexpr double kBent = 1e-3, kRounding = 1e-9;

/// Nothing where there are other phases than in the schedule.
std::optional<StepsInputs> all_inputs(const Schedule& s, const Case& c) {
  const Expanded all = expanded(c, s.angles);
  if (all.phases.size() != s.phases.size()) return std::nullopt;
  std::vector<Case> alone;
  for (std::size_t k = 0; k < c.steps.size(); ++k)
    alone.push_back(case_of_step(c, k));
  StepsInputs inputs;
  for (std::size_t k = 0; k < s.phases.size(); ++k) {
    if (all.phases[k].index != s.phases[k].index) return std::nullopt;
    const Case& step = alone[s.phases[k].step];
    inputs.numbers.push_back(
        inputs_of(step, s.steps[k].solved->model.response.electrodes()));
    inputs.growth.push_back(growth_per_charge(step.solution.metal) *
                            step.solution.efficiency.value *
                            all.content.steps[k].duration.value);
  }
  return inputs;
}

bool bends(double more, double less, double rounding) {
  return std::abs(more - less) >
         kBent * std::max(std::abs(more), std::abs(less)) + rounding;
}

/// Calls visit(base, a, b, into) for every number.
template <class Visit>
void for_each_number(const StepsInputs& base, const StepsInputs& a,
                     const StepsInputs& b, StepsInputs& into, Visit visit) {
  for (std::size_t k = 0; k < base.growth.size(); ++k) {
    visit(base.growth[k], a.growth[k], b.growth[k], into.growth[k]);
    for (Eigen::Index j = 0; j < base.numbers[k].size(); ++j)
      visit(base.numbers[k](j), a.numbers[k](j), b.numbers[k](j),
            into.numbers[k](j));
  }
}

InputChange change_by(const Schedule& s, const Case& moved,
                      const StepsInputs& base, const std::string& key,
                      Quantity& q) {
  InputChange change{key, q.value, base, false};
  const double at = q.value;
  const bool upwards = at == 0 && !may_be_negative(key);
  const double step = at != 0 ? kShare * std::abs(at) : kFromZero;
  const auto with = [&](double value) {
    q.value = value;
    const auto inputs = all_inputs(s, moved);
    q.value = at;
    return inputs;
  };
  const auto a = with(at + step), b = with(upwards ? 2 * step : at - step);
  change.bent = !a || !b;
  if (change.bent) return change;
  for_each_number(
      base, *a, *b, change.by, [&](double f, double f1, double f2, double& by) {
        if (upwards) {
          by = (4 * f1 - 3 * f - f2) / (2 * step);
          return;
        }
        by = (f1 - f2) / (2 * step);
        change.bent =
            change.bent || bends((f1 - f) / step, (f - f2) / step,
                                 kRounding * std::abs(f) / std::abs(at + step));
      });
  return change;
}

}  // namespace

std::vector<InputChange> input_changes(const Schedule& s, const Case& c) {
  Case moved = c;
  moved.probes.clear();
  const StepsInputs base = *all_inputs(s, c);
  std::vector<InputChange> changes;
  for_each_quantity(moved, [&](const std::string& key, Quantity& q) {
    changes.push_back(change_by(s, moved, base, key, q));
  });
  return changes;
}

}  // namespace thinspot::solver
