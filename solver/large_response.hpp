#pragma once

#include "mesh/mesh.hpp"
#include "solver/electrode_laws.hpp"
#include "solver/electrodes.hpp"

#include <Eigen/Core>

#include <memory>

namespace thinspot::solver {

struct MeshRows;
class MeshSystem;

/// What a Response does on a mesh that is too large to be condensed or
/// factored: every question is answered by iteration.
class LargeResponse {
 public:
  LargeResponse(const mesh::Mesh& mesh, const Electrodes& electrodes);

  /// As Response::solve.
  BoundaryAnswer solve(const Electrodes& electrodes, double conductivity,
                       const LocalLaws& laws, const Eigen::MatrixXd& loads,
                       const Eigen::MatrixXd& held) const;

  /// As Response::everywhere.
  Inside everywhere(const Electrodes& electrodes,
                    const Eigen::MatrixXd& boundary) const;

 private:
  /// The system for the laws that were asked for last.
  struct Kept {
    double conductivity = 0;
    LocalLaws laws;
    std::shared_ptr<const MeshSystem> system;
  };
  const MeshSystem& system_of(const Electrodes& electrodes, double conductivity,
                              const LocalLaws& laws) const;

  std::shared_ptr<const MeshRows> rows_;
  mutable Kept kept_;
};

}  // namespace thinspot::solver
