#include "solver/large_response.hpp"

#include "solver/mesh_rows.hpp"
#include "solver/mesh_system.hpp"

#include <utility>
#include <vector>

namespace thinspot::solver {

using Eigen::MatrixXd;

LargeResponse::LargeResponse(const mesh::Mesh& mesh,
                             const Electrodes& electrodes)
    : rows_(std::make_shared<const MeshRows>(
          mesh_rows(mesh, electrodes.nodes.mesh_node))) {}

const MeshSystem& LargeResponse::system_of(const Electrodes& electrodes,
                                           double conductivity,
                                           const LocalLaws& laws) const {
  return kept_.get(conductivity, laws, [&] {
    // Over the conductivity, so that the stiffness stays as it is.
    MeshSystem::Entries entries;
    for_each_law_entry(electrodes, laws, [&](int j, int k, double v) {
      entries.emplace_back(j, k, v / conductivity);
    });
    return std::make_shared<const MeshSystem>(
        rows_, entries, find_fixed(electrodes, laws).held);
  });
}

BoundaryAnswer LargeResponse::solve(const Electrodes& electrodes,
                                    double conductivity, const LocalLaws& laws,
                                    const MatrixXd& loads,
                                    const MatrixXd& held) const {
  MeshSystem::Answer answer = system_of(electrodes, conductivity, laws)
                                  .solve(loads / conductivity, held);
  return {std::move(answer.first), std::move(answer.reaction),
          answer.relative_residual};
}

Inside LargeResponse::everywhere(const Electrodes& electrodes,
                                 const MatrixXd& boundary) const {
  const LocalLaws held(std::vector<double>(electrodes.each.size(), 0.0));
  MeshSystem::Answer answer =
      system_of(electrodes, 1, held)
          .solve(MatrixXd::Zero(boundary.rows(), boundary.cols()), boundary,
                 true);
  return {std::move(answer.everywhere), answer.relative_residual};
}

}  // namespace thinspot::solver
