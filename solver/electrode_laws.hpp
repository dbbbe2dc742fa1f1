#pragma once

#include "solver/electrodes.hpp"

#include <Eigen/Core>

#include <vector>

namespace thinspot::solver {

/// Boundary values of any right-hand side, one column each.
struct BoundaryAnswer {
  Eigen::MatrixXd potential;  ///< nb x k
  /// What the stiffness at conductivity 1 makes of them; 0 in rows whose
  /// potential is not held.
  Eigen::MatrixXd reaction;
  double relative_residual = 0;
};

/// Boundary rows whose potential is held, and the others.
struct FixedRows {
  std::vector<bool> held;
  std::vector<Eigen::Index> free, fixed;
};
FixedRows find_fixed(const Electrodes& electrodes,
                     const std::vector<double>& resistance);

/// Calls add(row, column, value) for every entry of sum of mass / resistance.
template <class Add>
void for_each_law_entry(const Electrodes& electrodes,
                        const std::vector<double>& resistance, Add add) {
  for (std::size_t e = 0; e < electrodes.each.size(); ++e) {
    if (resistance[e] == 0) continue;
    const Electrode& electrode = electrodes.each[e];
    for (Eigen::Index k = 0; k < electrode.mass.outerSize(); ++k)
      for (SparseMatrix::InnerIterator it(electrode.mass, k); it; ++it)
        add(electrode.rows[static_cast<std::size_t>(it.row())],
            electrode.rows[static_cast<std::size_t>(it.col())],
            it.value() / resistance[e]);
  }
}

/// |error| over its scale; itself where the scale is nothing.
double relative_residual(double error, double scale);

/// a x, column by column: a matrix of two columns is not worth packing blocks
/// for.
Eigen::MatrixXd product(const Eigen::Ref<const Eigen::MatrixXd>& a,
                        const Eigen::MatrixXd& x);
/// a^T x likewise.
Eigen::MatrixXd transposed_product(const Eigen::Ref<const Eigen::MatrixXd>& a,
                                   const Eigen::MatrixXd& x);

/// Constants carry no current, so they are taken off before the operator is
/// applied: beside a large resistance the potential is constant but for a
/// millionth, and the rounding of the constant would drown the current.
Eigen::MatrixXd without_mean(const Eigen::MatrixXd& potential);

}  // namespace thinspot::solver
