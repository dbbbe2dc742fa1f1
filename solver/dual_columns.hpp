#pragma once

#include <Eigen/Core>

#include <vector>

namespace thinspot::solver {

/// One row for all fields at a node: they are taken together.
using FieldRows =
    Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

/// Duals as combinations of fields, kept so that many rows of fields are soon
/// multiplied: the first fields are in the duals of many goals, each of the
/// others, a window's own, in that of one.
class DualColumns {
 public:
  /// @param duals  fields x goals, which outlive this
  explicit DualColumns(const Eigen::MatrixXd& duals);

  /// rows * duals
  Eigen::MatrixXd times(const FieldRows& rows) const;

  const Eigen::MatrixXd& all() const { return duals_; }

 private:
  struct Lone {
    Eigen::Index field, goal;
    double value;
  };
  const Eigen::MatrixXd& duals_;
  Eigen::MatrixXd shared_;
  std::vector<Lone> lone_;
};

}  // namespace thinspot::solver
