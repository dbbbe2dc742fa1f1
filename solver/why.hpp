#pragma once

#include "solver/progress.hpp"

#include <Eigen/Core>

#include <optional>
#include <vector>

namespace thinspot::solver {

struct Result;
struct Schedule;

/// How uneven a coating is, over its mean.
struct Unevenness {
  double least = 0, largest = 0;  ///< thickness over its mean
  /// Mean of what thickness is off its mean, by area, over the mean: 0 even.
  double spread = 0;
};

/// One part, as it is plated and as shape and placing alone would have it.
struct WhyPart {
  Unevenness actual, ideal;
  /// Were there no polarization at it, the mean thickness the same; at the
  /// points of PartResult::surface [m].
  Eigen::VectorXd thickness;
};

/// Where unevenness comes from: how much shape and placing alone would make,
/// how much the part's polarization relieves of it, and what other currents
/// and solutions would.
struct Why {
  std::vector<WhyPart> parts;    ///< as Result::parts
  double actual = 0, ideal = 0;  ///< Unevenness::spread of all parts
  /// 1 - actual / ideal: what polarization takes away, and efficiency where it
  /// goes by current density; 0 where ideal is even.
  double relief = 0;
  /// Unevenness::spread at half the current, and in a solution that conducts
  /// twice as well; empty where the cell would not work so.
  std::optional<double> half_current, twice_conductivity;
};

/// From the same meshes and responses: a few dense solves for each.
/// @returns nullopt where the cell does not work without polarization.
std::optional<Why> why_of(const Schedule& schedule, const Result& result,
                          const Progress& progress = {});

}  // namespace thinspot::solver
