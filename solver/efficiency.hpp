#pragma once

#include "solver/case.hpp"

#include <Eigen/Core>

#include <optional>

namespace thinspot::solver {

/// Share of the current that deposits metal at a current density, 0..1.
/// @param density  [A/m2]; its direction does not count
double efficiency_at(const Solution& solution, double density);

/// The current density that would deposit as much at Solution::efficiency as
/// this one does at its own; the same where there is no table [A/m2].
double depositing(const Solution& solution, double density);
Eigen::VectorXd depositing(const Solution& solution,
                           const Eigen::VectorXd& density);

/// How depositing() changes by density; nothing on a point of the table, where
/// it has a bend.
std::optional<double> depositing_slope(const Solution& solution,
                                       double density);

/// How much depositing() changes by density at most between two densities.
/// @pre low <= high
double steepest(const Solution& solution, double low, double high);

/// Divides a table by the efficiency that it has at a density, which becomes
/// Solution::efficiency; its tolerance stays.
/// @param density  [A/m2]
void refer_efficiency_to(Solution& solution, double density);

/// Whether more current deposits more metal everywhere on the table.
bool deposits_more_with_more(const std::vector<EfficiencyAt>& table);

}  // namespace thinspot::solver
