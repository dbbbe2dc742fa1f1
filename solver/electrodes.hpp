#pragma once

#include "mesh/mesh.hpp"
#include "solver/laplace.hpp"

#include <array>
#include <unordered_map>
#include <vector>

namespace thinspot::solver {

/// The nodes at which metal meets liquid, over all electrodes, numbered 0..nb-1
/// ("boundary rows").
struct ElectrodeNodes {
  std::vector<int> mesh_node;  ///< of a boundary row
  std::vector<int> row;        ///< of a mesh node; -1 inside the liquid
};

/// An edge of an electrode, for laws that are not linear along it.
struct ElectrodeEdge {
  std::size_t boundary = 0;      ///< index into Mesh::boundary
  std::array<int, 3> place{};    ///< of its nodes in Electrode::rows
  std::array<double, 4> size{};  ///< of each Gauss point: weight, length and w
                                 ///< [m planar, m2 axisymmetric]
};

/// Where one solid meets the liquid.
struct Electrode {
  std::size_t solid = 0;  ///< index into Section::solids
  std::vector<int> rows;  ///< boundary rows of its nodes
  /// Integral of N_j N_k w over its surface, rows as in `rows`
  /// [m planar, m2 axisymmetric]. Symmetric positive definite.
  SparseMatrix mass;
  /// Hat functions of the edges' ends in terms of the nodes: 1 at its end, 1/2
  /// at the middles beside it. One column an end.
  SparseMatrix hats;
  Eigen::VectorXd weight;  ///< mass times ones
  double measure = 0;      ///< length or area: sum of weight
  std::vector<ElectrodeEdge> edges;
};

/// Place in `rows` of each boundary row that the electrode has.
std::unordered_map<int, int> places_by_row(const Electrode& electrode);

struct Electrodes {
  ElectrodeNodes nodes;
  std::vector<Electrode> each;  ///< in the order of the solids; those without
                                ///< wetted surface are missing
};

Electrodes find_electrodes(const mesh::Mesh& mesh,
                           const mesh::Section& section);

}  // namespace thinspot::solver
