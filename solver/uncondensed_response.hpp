#pragma once

#include "solver/electrode_laws.hpp"
#include "solver/electrodes.hpp"

#include <Eigen/Core>

#include <vector>

namespace thinspot::solver {

/// What a Response does on a mesh that is too large to be condensed.
class UncondensedResponse {
 public:
  UncondensedResponse() = default;
  virtual ~UncondensedResponse() = default;
  UncondensedResponse(const UncondensedResponse&) = delete;
  UncondensedResponse& operator=(const UncondensedResponse&) = delete;

  /// In which nodes are eliminated; empty where they are not.
  virtual std::vector<int> order() const { return {}; }

  /// As Response::solve.
  virtual BoundaryAnswer solve(const Electrodes& electrodes,
                               double conductivity, const LocalLaws& laws,
                               const Eigen::MatrixXd& loads,
                               const Eigen::MatrixXd& held) const = 0;

  /// As Response::everywhere.
  virtual Inside everywhere(const Electrodes& electrodes,
                            const Eigen::MatrixXd& boundary) const = 0;
};

}  // namespace thinspot::solver
