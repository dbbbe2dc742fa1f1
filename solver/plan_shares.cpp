#include "solver/plan_shares.hpp"

#include <nlopt.hpp>

#include <algorithm>
#include <stdexcept>

namespace thinspot::solver {

namespace {

constexpr double kWorth = 0.01;
/// Less than this of the whole time is not worth a handling.
constexpr double kLeastShare = 0.05;
constexpr int kMostTrials = 80;

struct Question {
  Layout& layout;
  std::vector<Step> steps;
  double factor;
  double before = 0;

  /// The last one has what is left.
  std::vector<Step> with(const std::vector<double>& shares) const {
    std::vector<Step> all = steps;
    double left = 1;
    for (std::size_t k = 0; k < shares.size(); ++k) {
      all[k].duration.value = shares[k];
      left -= shares[k];
    }
    all.back().duration.value = std::max(0.0, left);
    return all;
  }
};

}  // namespace

std::vector<Step> best_shares(Layout& layout, const std::vector<Step>& steps,
                              double factor) {
  if (steps.size() < 2 || steps.size() > 6) return steps;
  double total = 0;
  for (const Step& step : steps) total += step.duration.value;
  Question q{layout, steps, factor, layout.yield(steps, factor).least};
  if (!(q.before > 0)) return steps;
  std::vector<double> shares;
  for (std::size_t k = 0; k + 1 < steps.size(); ++k)
    shares.push_back(steps[k].duration.value / total);
  const std::vector<double> even = shares;
  // Thickness is linear in the shares, its least concave: one summit.
  nlopt::opt opt(nlopt::LN_COBYLA, static_cast<unsigned>(shares.size()));
  opt.set_lower_bounds(kLeastShare);
  opt.set_upper_bounds(1 - kLeastShare);
  opt.set_initial_step(0.1);
  opt.set_xtol_abs(2e-3);
  opt.set_maxeval(kMostTrials);
  opt.set_max_objective(
      [](const std::vector<double>& x, std::vector<double>&, void* data) {
        Question& asked = *static_cast<Question*>(data);
        return asked.layout.yield(asked.with(x), asked.factor).least /
               asked.before;
      },
      &q);
  opt.add_inequality_constraint(
      [](const std::vector<double>& x, std::vector<double>&, void*) {
        double sum = 0;
        for (double share : x) sum += share;
        return sum - (1 - kLeastShare);
      },
      nullptr, 1e-6);
  double gain = 0;
  try {
    opt.optimize(shares, gain);
  } catch (const std::runtime_error&) {
    return steps;
  }
  if (gain < 1 + kWorth) return steps;
  return q.with(shares);
}

}  // namespace thinspot::solver
