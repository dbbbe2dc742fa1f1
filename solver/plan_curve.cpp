#include "solver/plan_curve.hpp"

#include "mesh/errors.hpp"
#include "solver/plan_set_up.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

namespace {

constexpr std::size_t kMostSetUps = 16;
constexpr int kCurrents = 9;
/// Down to this share of the largest current.
constexpr double kLeastShare = 0.1;
/// What is told apart, of either figure.
constexpr double kApart = 2e-3;

}  // namespace

std::vector<TradeOff> trade_off(const SearchSpace& space,
                                const SearchResult& result) {
  PlanLimits free = space.limits;
  free.longest.reset();
  std::vector<TradeOff> all;
  for (std::size_t k = 0; k < std::min(kMostSetUps, result.found.size()); ++k) {
    const Found& found = result.found[k];
    const PlanStructure& structure = space.structures[found.structure];
    const PlanSchedule& schedule =
        space.schedules[found.structure][found.schedule];
    const double handling = space.handling[found.structure][found.schedule];
    try {
      Layout layout(case_at(structure, found.at), nullptr);
      const double most =
          most_current(layout, schedule.steps, space.drive, free);
      for (int j = 0; j < kCurrents; ++j) {
        const double factor =
            most * std::pow(kLeastShare, double(j) / (kCurrents - 1));
        if (factor < space.drive.low) break;
        const Trial t =
            at_current(layout, schedule.steps, handling, factor, free);
        if (t.excess > 0 || !(t.yield.least > 0) ||
            (j > 0 && t.yield.mean_density < free.mean_low))
          continue;
        all.push_back({t.bench, t.evenness, t.yield.current, schedule.turns,
                       name_of(structure, schedule)});
      }
    } catch (const CaseError&) {
      // Currents so small that the supply finds no working point.
    }
  }
  std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) {
    return a.bench < b.bench;
  });
  std::vector<TradeOff> best;
  for (const TradeOff& t : all)
    if (best.empty() || t.evenness < (1 - kApart) * best.back().evenness)
      best.push_back(t);
  return best;
}

}  // namespace thinspot::solver
