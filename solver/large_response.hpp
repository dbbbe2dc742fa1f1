#pragma once

#include "mesh/mesh.hpp"
#include "solver/for_laws.hpp"
#include "solver/uncondensed_response.hpp"

#include <memory>

namespace thinspot::solver {

struct MeshRows;
class MeshSystem;

/// On a mesh that is too large to be factored: every question is answered by
/// iteration.
class LargeResponse : public UncondensedResponse {
 public:
  LargeResponse(const mesh::Mesh& mesh, const Electrodes& electrodes);

  BoundaryAnswer solve(const Electrodes& electrodes, double conductivity,
                       const LocalLaws& laws, const Eigen::MatrixXd& loads,
                       const Eigen::MatrixXd& held) const override;
  Inside everywhere(const Electrodes& electrodes,
                    const Eigen::MatrixXd& boundary) const override;

 private:
  const MeshSystem& system_of(const Electrodes& electrodes, double conductivity,
                              const LocalLaws& laws) const;

  std::shared_ptr<const MeshRows> rows_;
  mutable ForLaws<MeshSystem> kept_;
};

}  // namespace thinspot::solver
