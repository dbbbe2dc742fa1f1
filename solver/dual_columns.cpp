#include "solver/dual_columns.hpp"

namespace thinspot::solver {

using Eigen::Index;
using Eigen::MatrixXd;

DualColumns::DualColumns(const MatrixXd& duals) : duals_(duals) {
  Index shared = duals.rows();
  while (shared > 0 && (duals.row(shared - 1).array() != 0).count() <= 1)
    --shared;
  for (Index field = shared; field < duals.rows(); ++field)
    for (Index goal = 0; goal < duals.cols(); ++goal)
      if (duals(field, goal) != 0)
        lone_.push_back({field, goal, duals(field, goal)});
  shared_ = duals.topRows(shared);
}

MatrixXd DualColumns::times(const FieldRows& rows) const {
  MatrixXd product = rows.leftCols(shared_.rows()) * shared_;
  for (const Lone& l : lone_)
    product.col(l.goal) += l.value * rows.col(l.field);
  return product;
}

}  // namespace thinspot::solver
