#include "solver/disc_loads.hpp"

#include "mesh/turning_disc.hpp"
#include "solver/bubbles.hpp"
#include "solver/element.hpp"

#include <cmath>
#include <numbers>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;

/// Current density of each field at an angle on a circle of its own waves.
Eigen::RowVectorXd density_at(const MatrixXd& waves, double angle) {
  Eigen::RowVectorXd sum = waves.row(0);
  for (Index n = 1; 2 * n < waves.rows(); ++n)
    sum += std::cos(double(n) * angle) * waves.row(2 * n - 1) +
           std::sin(double(n) * angle) * waves.row(2 * n);
  return sum;
}

}  // namespace

void add_disc_loads(const Model& model, const MatrixXd& boundary,
                    Fields& fields) {
  const auto& discs = model.section.discs;
  if (discs.empty()) return;
  const MatrixXd flux = model.response.flux_through_discs(boundary);
  const Index each = flux.rows() / static_cast<Index>(discs.size());
  const std::vector<int> disc_of = mesh::disc_of_triangles(model.mesh, discs);
  for (std::size_t b = 0; b < model.mesh.boundary.size(); ++b) {
    const mesh::BoundaryEdge& e = model.mesh.boundary[b];
    if (e.owner != mesh::kDisc) continue;
    const auto d = static_cast<std::size_t>(e.loop);
    const mesh::TurningDisc& disc = discs[d];
    // Tested with the waves themselves: over their squares' integrals it is
    // the density's waves.
    MatrixXd density = fields.conductivity / (std::numbers::pi * disc.radius) *
                       flux.middleRows(static_cast<Index>(d) * each, each);
    density.row(0) *= 0.5;
    const bool inside = disc_of[static_cast<std::size_t>(e.triangle)] == e.loop;
    Eigen::Matrix<double, 2, 3> p;
    for (std::size_t k = 0; k < 3; ++k)
      p.col(static_cast<Index>(k)) = model.mesh.nodes.col(e.nodes[k]);
    MatrixXd load = MatrixXd::Zero(2, flux.cols());
    for (const EdgePoint& q : gauss_rule()) {
      const mesh::Point at = p * edge_functions(q.t) - disc.centre;
      const double size = (p * edge_derivatives(q.t)).norm();
      load += (inside ? -1 : 1) * q.weight * size * edge_bubbles(q.t) *
              density_at(density, std::atan2(at.y(), at.x()));
    }
    for (Index k = 0; k < load.cols(); ++k)
      fields.loads.push_back({b, k, load.col(k)});
  }
}

}  // namespace thinspot::solver
