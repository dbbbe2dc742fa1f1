#pragma once

#include "solver/electrodes.hpp"
#include "solver/polarization.hpp"

#include <Eigen/Core>

#include <array>
#include <memory>
#include <vector>

namespace thinspot::solver {

/// Overpotentials along an electrode without the law's offset, positive in the
/// direction in which it works [V].
struct OverPotentials {
  std::vector<std::array<double, 4>> gauss;  ///< of Electrode::edges
  Eigen::VectorXd nodes;                     ///< of Electrode::rows
};

/// A curved law where it works: the density that leaves the liquid is
///   slope * (potential - drive) + rest
/// with slope and rest of each point of the electrode.
struct Tangent {
  SparseMatrix mass;           ///< integral of slope N_j N_k w
  Eigen::VectorXd weight;      ///< mass times ones
  Eigen::VectorXd rest;        ///< integral of rest N_j w [A/m or A]
  Eigen::VectorXd node_slope;  ///< [A/(m2 V)]
  Eigen::VectorXd node_rest;   ///< [A/m2]
  struct AtEdge {
    std::array<double, 4> slope{}, rest{};  ///< at its Gauss points
  };
  std::vector<AtEdge> edges;  ///< of Electrode::edges
  OverPotentials over;        ///< where it touches
};

/// @param series  of a bag between the metal and the liquid [ohm m2]
std::shared_ptr<const Tangent> tangent_at(const Electrode& electrode,
                                          const LawCurve& curve, bool anode,
                                          double series,
                                          const OverPotentials& over);

}  // namespace thinspot::solver
