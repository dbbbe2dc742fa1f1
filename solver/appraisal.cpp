#include "solver/appraisal.hpp"

#include "mesh/errors.hpp"
#include "solver/result.hpp"
#include "solver/schedule.hpp"
#include "solver/step_case.hpp"

namespace thinspot::solver {

namespace {

/// Nothing where the test cell has no answer, as where its near plate would
/// take more than mass transfer brings: the part's own result stands without.
std::optional<ThrowingPower> throw_of(Case c, const Result& result) {
  const StepResult& last = result.steps.back();
  c.solution = solution_in(c, result.steps.size() - 1);
  try {
    return throwing_power(c, last.mean_current_density);
  } catch (const InputError&) {
    return std::nullopt;
  } catch (const NoResultError&) {
    return std::nullopt;
  }
}

}  // namespace

Appraisal appraise(const Schedule&, const Case& c, const Result& result) {
  Appraisal a;
  a.gas = gas_of(result);
  a.throwing = throw_of(c, result);
  return a;
}

}  // namespace thinspot::solver
