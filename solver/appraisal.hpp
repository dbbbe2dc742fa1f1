#pragma once

#include "solver/gas.hpp"
#include "solver/throwing_power.hpp"

#include <optional>

namespace thinspot::solver {

struct Schedule;

/// What a result means at the bench besides thickness. Everything in here
/// follows from the steps as they were solved.
struct Appraisal {
  Gas gas;
  /// Of the solution at the part's mean current density in the last step.
  /// Of several layers each has its own, and their sum none.
  std::optional<ThrowingPower> throwing;
};

/// @param result  of the same steps, all else of it filled in
Appraisal appraise(const Schedule& schedule, const Case& c,
                   const Result& result);

}  // namespace thinspot::solver
