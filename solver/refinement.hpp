#pragma once

#include "solver/estimate.hpp"
#include "solver/model.hpp"
#include "solver/system_size.hpp"

#include <Eigen/Core>

#include <optional>
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

/// Triangles that bring each goal that is beyond its allowance back to it,
/// those that are worth most first.
/// @param last_bar  of the round before; empty in the first
std::vector<int> triangles_to_refine(const Model& model,
                                     const Estimate& estimate,
                                     const Eigen::VectorXd& last_bar);

struct Refined {
  mesh::Mesh mesh;
  bool last = false;  ///< of no use to go on from it
};

/// A round with these triangles. A mesh of more than kMostNodes costs several
/// times one that is factored (measured: 107,000 nodes 0.35 s, 201,000 2.4 s):
/// it is made where it is likely to bring every error within. Else only those
/// that are worth most are refined, up to there.
/// @param marked  as triangles_to_refine gives them
/// @returns nothing where that would hardly change the mesh.
std::optional<Refined> refined_as_far(const Model& model,
                                      const Estimate& estimate,
                                      std::vector<int> marked);

}  // namespace thinspot::solver
