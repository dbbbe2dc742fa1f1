#include "solver/appraisal.hpp"

#include "mesh/errors.hpp"
#include "solver/result.hpp"
#include "solver/schedule.hpp"
#include "solver/step_case.hpp"

#include <utility>

namespace thinspot::solver {

namespace {

/// Of what an appraisal takes, all that comes before the last.
constexpr double kBeforeWhy = 0.2;

/// A current that the part bears may be too much for the far plate of the
/// cell, or no current for its law: then nothing is told.
std::optional<ThrowingPower> throwing_power_or_none(Case c,
                                                    const Result& result) {
  c.solution = solution_in(c, result.steps.size() - 1);
  try {
    return throwing_power(c, result.steps.back().mean_current_density);
  } catch (const CaseError&) {
  }
  return std::nullopt;
}

}  // namespace

void appraise(const Schedule& schedule, const Case& c, Result& result,
              const Progress& whole) {
  const Progress progress = whole.named({"what it means"});
  progress.at(0);
  Appraisal a;
  a.gas = gas_of(result);
  a.throwing = throwing_power_or_none(c, result);
  a.anodes = anode_health(result);
  a.burn = burn_map(schedule, c, result);
  a.range = share_in_range(result);
  a.edges = edge_build(result);
  a.why = why_of(schedule, result, progress.part(kBeforeWhy, 1));
  for (std::size_t k = 0; k < result.steps.size(); ++k)
    result.steps[k].burning = result.steps[k].burning || burns(a.burn, k);
  result.appraisal = std::move(a);
  progress.at(1);
}

void appraise_layers(const Schedule& schedule, Result& whole,
                     const Progress& progress) {
  const Progress said = progress.named({"what it means"});
  Appraisal a;
  a.gas = gas_of(whole);
  a.why = why_of(schedule, whole, said);
  std::size_t first = 0;
  for (const LayerResult& layer : whole.layers) {
    const Appraisal& own = layer.own.appraisal;
    for (BurnSpan span : own.burn.spans) {
      span.step += first;
      a.burn.spans.push_back(std::move(span));
    }
    const auto times = [](const EdgeBuild& e) { return e.thickness / e.from; };
    if (own.edges && (!a.edges || times(*own.edges) > times(*a.edges)))
      a.edges = own.edges;
    first += layer.own.steps.size();
  }
  whole.appraisal = std::move(a);
  said.at(1);
}

}  // namespace thinspot::solver
