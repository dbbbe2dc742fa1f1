#pragma once

#include "solver/estimate.hpp"
#include "solver/model.hpp"
#include "solver/system_size.hpp"

#include <Eigen/Core>

#include <vector>

namespace thinspot::solver {

/// Rounds after which refining ends, whatever the error is then.
inline constexpr int kMostRounds = 14;
/// Nodes beyond which it ends: some seconds of work. Larger meshes are solved
/// by iteration, which few are to need.
inline constexpr Eigen::Index kMostNodes = kIteratedFrom;

/// True where every error is within what the tolerance allows.
bool within(const Estimate& estimate);

/// How many rounds an estimate lets expect until every error is within: a guess
/// for those who wait.
double rounds_to_come(const Estimate& estimate);

/// Triangles that bring each goal that is beyond its allowance back to it.
/// @param last_bar  of the round before; empty in the first
std::vector<int> triangles_to_refine(const Model& model,
                                     const Estimate& estimate,
                                     const Eigen::VectorXd& last_bar);

}  // namespace thinspot::solver
