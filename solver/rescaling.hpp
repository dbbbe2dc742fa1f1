#pragma once

#include "solver/supply.hpp"

#include <Eigen/Core>

#include <vector>

namespace thinspot::solver {

/// Share of the stated current density below which an electrode is at rest.
inline constexpr double kRest = 1e-3;

/// True where the slope follows the mean current density.
bool rescales(const Polarization& p);

/// Mean current density of an electrode as drawn, positive in its normal
/// direction [A/m2].
double mean_density(const WorkingPoint& w, const Response& response,
                    std::size_t electrode, double depth);

/// Resistances that follow from the mean current densities of a working point,
/// bags included, and those that it was found with, as logarithms of [ohm m2];
/// of the electrodes that rescale.
struct Rescaling {
  std::vector<std::size_t> electrodes;
  Eigen::VectorXd before, after;
};
Rescaling rescaling(const WorkingPoint& w, const Response& response,
                    const Case& c, double depth);

/// Logarithms of the resistances to try next: Newton's method for before =
/// after. Of many cathodes that compete for the current, plain repetition
/// takes a hundred answers of the response, this takes five. How the answers
/// change with a resistance is known from themselves; of the supply, which is
/// small, differences are taken.
Eigen::VectorXd newton_step(const WorkingPoint& w, const Rescaling& r,
                            const Response& response, const Case& c,
                            const SectionScale& scale);

}  // namespace thinspot::solver
