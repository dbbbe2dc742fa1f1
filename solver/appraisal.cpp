#include "solver/appraisal.hpp"

#include "mesh/errors.hpp"
#include "solver/result.hpp"
#include "solver/schedule.hpp"
#include "solver/step_case.hpp"

#include <utility>

namespace thinspot::solver {

namespace {

/// A current that the part bears may be too much for the far plate of the
/// cell, or no current for its law: then nothing is told.
std::optional<ThrowingPower> throwing_power_or_none(Case c,
                                                    const Result& result) {
  c.solution = solution_in(c, result.steps.size() - 1);
  try {
    return throwing_power(c, result.steps.back().mean_current_density);
  } catch (const InputError&) {
  } catch (const NoResultError&) {
  }
  return std::nullopt;
}

}  // namespace

void appraise(const Schedule& schedule, const Case& c, Result& result) {
  Appraisal a;
  a.gas = gas_of(result);
  a.throwing = throwing_power_or_none(c, result);
  a.anodes = anode_health(result);
  a.burn = burn_map(schedule, c, result);
  a.range = share_in_range(result);
  a.edges = edge_build(result);
  a.why = why_of(schedule, result);
  for (std::size_t k = 0; k < result.steps.size(); ++k)
    result.steps[k].burning = result.steps[k].burning || burns(a.burn, k);
  result.appraisal = std::move(a);
}

void appraise_layers(const Schedule& schedule, Result& whole) {
  Appraisal a;
  a.gas = gas_of(whole);
  a.why = why_of(schedule, whole);
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
}

}  // namespace thinspot::solver
