#include "solver/appraisal.hpp"

#include "solver/result.hpp"
#include "solver/schedule.hpp"

namespace thinspot::solver {

Appraisal appraise(const Schedule&, const Case& c, const Result& result) {
  Appraisal a;
  a.gas = gas_of(result);
  a.throwing = throwing_power(c, result.steps.back().mean_current_density);
  return a;
}

}  // namespace thinspot::solver
