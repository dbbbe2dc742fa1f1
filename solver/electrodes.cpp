#include "solver/electrodes.hpp"

#include "solver/element.hpp"

#include <map>
#include <numbers>

namespace thinspot::solver {

namespace {

std::array<double, 4> gauss_sizes(const mesh::Mesh& mesh,
                                  const mesh::BoundaryEdge& edge) {
  Eigen::Matrix<double, 2, 3> p;
  for (std::size_t k = 0; k < 3; ++k)
    p.col(static_cast<Eigen::Index>(k)) = mesh.nodes.col(edge.nodes[k]);
  std::array<double, 4> sizes{};
  for (std::size_t q = 0; q < sizes.size(); ++q) {
    const EdgePoint& at = gauss_rule()[q];
    const double w =
        mesh.cut == mesh::Cut::axisymmetric
            ? 2 * std::numbers::pi * p.row(0).dot(edge_functions(at.t))
            : 1;
    sizes[q] = at.weight * w * (p * edge_derivatives(at.t)).norm();
  }
  return sizes;
}

Electrode electrode_of(const mesh::Mesh& mesh, std::size_t solid,
                       ElectrodeNodes& nodes) {
  Electrode electrode;
  electrode.solid = solid;
  std::map<int, int> local;  // mesh node -> index into electrode.rows
  std::vector<Eigen::Triplet<double>> entries, hats;
  std::map<int, int> hat_of;  // index of an end -> column of hats
  const auto hat = [&](int end) {
    const auto [entry, is_new] =
        hat_of.try_emplace(end, static_cast<int>(hat_of.size()));
    if (is_new) hats.emplace_back(end, entry->second, 1);
    return entry->second;
  };
  for (std::size_t b = 0; b < mesh.boundary.size(); ++b) {
    const mesh::BoundaryEdge& edge = mesh.boundary[b];
    if (edge.owner != static_cast<int>(solid) || edge.masked) continue;
    const Eigen::Matrix3d mass = edge_mass(mesh, edge);
    std::array<int, 3> index{};
    for (std::size_t k = 0; k < 3; ++k) {
      const int node = edge.nodes[k];
      int& row = nodes.row[static_cast<std::size_t>(node)];
      if (row < 0) {
        row = static_cast<int>(nodes.mesh_node.size());
        nodes.mesh_node.push_back(node);
      }
      const auto [entry, is_new] =
          local.try_emplace(node, static_cast<int>(electrode.rows.size()));
      if (is_new) electrode.rows.push_back(row);
      index[k] = entry->second;
    }
    electrode.edges.push_back({b, index, gauss_sizes(mesh, edge)});
    for (std::size_t end : {0u, 1u})
      hats.emplace_back(index[2], hat(index[end]), 0.5);
    for (std::size_t j = 0; j < 3; ++j)
      for (std::size_t k = 0; k < 3; ++k)
        entries.emplace_back(
            index[j], index[k],
            mass(static_cast<Eigen::Index>(j), static_cast<Eigen::Index>(k)));
  }
  const auto n = static_cast<Eigen::Index>(electrode.rows.size());
  electrode.mass.resize(n, n);
  electrode.mass.setFromTriplets(entries.begin(), entries.end());
  electrode.hats.resize(n, static_cast<Eigen::Index>(hat_of.size()));
  electrode.hats.setFromTriplets(hats.begin(), hats.end());
  electrode.weight = electrode.mass * Eigen::VectorXd::Ones(n);
  electrode.measure = electrode.weight.sum();
  return electrode;
}

}  // namespace

std::unordered_map<int, int> places_by_row(const Electrode& electrode) {
  std::unordered_map<int, int> places;
  for (std::size_t k = 0; k < electrode.rows.size(); ++k)
    places[electrode.rows[k]] = static_cast<int>(k);
  return places;
}

Electrodes find_electrodes(const mesh::Mesh& mesh,
                           const mesh::Section& section) {
  Electrodes result;
  result.nodes.row.assign(static_cast<std::size_t>(mesh.nodes.cols()), -1);
  for (std::size_t s = 0; s < section.solids.size(); ++s) {
    if (!mesh::is_electrode(section.solids[s].spec.role)) continue;
    Electrode electrode = electrode_of(mesh, s, result.nodes);
    if (!electrode.rows.empty()) result.each.push_back(std::move(electrode));
  }
  return result;
}

}  // namespace thinspot::solver
