#pragma once

#include "mesh/mesh.hpp"
#include "mesh/section.hpp"
#include "solver/electrode_laws.hpp"
#include "solver/electrodes.hpp"

#include <Eigen/Core>

#include <vector>

namespace thinspot::solver {

/// A load on a boundary edge, of metal beside those of the laws or of a turning
/// disc, tested with the edge's
/// two bubbles in the direction of its nodes.
struct EdgeLoad {
  std::size_t edge = 0;  ///< index into Mesh::boundary
  Eigen::Index field = 0;
  Eigen::Vector2d load = Eigen::Vector2d::Zero();
};

/// Discrete fields of one linear problem: of each, conductivity times gradient
/// is free of sources, its flux through an electrode follows the law's slope
/// and the load there, and electrodes without resistance hold a value.
struct Fields {
  double conductivity = 0;  ///< [S/m]
  LocalLaws laws;
  Eigen::MatrixXd nodes;  ///< one column a field
  /// Field k, for k below the number of electrodes, has the load of one volt
  /// behind electrode k; where laws are tangents the next has that of their
  /// rest; the others only these.
  std::vector<EdgeLoad> loads;
};

/// What of goals is in error, triangle by triangle.
struct LocalErrors {
  /// Triangles x goals: the energy product of the error of the solution and of
  /// the goal's dual. The sum over triangles estimates true minus discrete.
  Eigen::MatrixXd product;
  /// The same size: what the curved edges' distance from their true curves
  /// can change, absolute.
  Eigen::MatrixXd geometry;
};

/// Errors of P2 fields as bubbles of degree 4: on each triangle
///   a(e, b) = residual(b)   for every bubble b,
/// the flux over inner edges being the mean of both sides. With e of the
/// solution and e* of a dual, a(e, e*) is what the dual's goal is off. Source:
/// R. E. Bank and A. Weiser, Math. Comp. 44 (1985) 283, for the local problems;
/// R. Becker and R. Rannacher, Acta Numerica 10 (2001) 1, for the weighting by
/// a dual (both from memory).
/// @param solution  coefficients of the solution in the fields
/// @param duals     fields x goals: coefficients of each goal's dual
LocalErrors local_errors(const mesh::Mesh& mesh, const mesh::Section& section,
                         const Electrodes& electrodes, const Fields& fields,
                         const Eigen::VectorXd& solution,
                         const Eigen::MatrixXd& duals);

}  // namespace thinspot::solver
