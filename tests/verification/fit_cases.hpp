#pragma once

#include "bench_cases.hpp"
#include "solver/fit.hpp"

#include <vector>

// Cells and readings that the tests of fitting share. SI throughout.
namespace thinspot::tests {

/// Of the one-dimensional cell [m].
inline constexpr double kGap = 0.05, kHeight = 0.02;

solver::Reading reading(solver::Reading::Of of, double value,
                        double plus_minus);
solver::Reading voltage_at(double current, double volts = 1,
                           double plus_minus = 1e-3);
solver::Reading thickness_at(const mesh::Point& at, double share_sure);

/// A cell between full plates: U = I / A (gap / kappa + R) + offset.
solver::Case cell(double gap, double kappa, double slope, double offset);
double cell_voltage(double current, double gap, double kappa, double slope,
                    double offset);

/// A token whose slope does not follow the current, and what one might read of
/// it: four currents, two at another gap, its mass, and thickness in the middle
/// of both faces and at its upper rim.
solver::Case fit_token(double kappa, double slope, double offset);
std::vector<solver::Experiment> token_readings(const solver::Case& c);

}  // namespace thinspot::tests
