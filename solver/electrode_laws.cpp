#include "solver/electrode_laws.hpp"

namespace thinspot::solver {

FixedRows find_fixed(const Electrodes& electrodes, const LocalLaws& laws) {
  FixedRows f;
  const std::size_t rows = electrodes.nodes.mesh_node.size();
  f.held.assign(rows, false);
  for (std::size_t e = 0; e < electrodes.each.size(); ++e)
    if (laws.resistance[e] == 0)
      for (int row : electrodes.each[e].rows)
        f.held[static_cast<std::size_t>(row)] = true;
  for (std::size_t r = 0; r < rows; ++r)
    (f.held[r] ? f.fixed : f.free).push_back(static_cast<Eigen::Index>(r));
  return f;
}

double relative_residual(double error, double scale) {
  return scale > 0 ? error / scale : error;
}

Eigen::MatrixXd product(const Eigen::Ref<const Eigen::MatrixXd>& a,
                        const Eigen::MatrixXd& x) {
  Eigen::MatrixXd y(a.rows(), x.cols());
  for (Eigen::Index k = 0; k < x.cols(); ++k) y.col(k).noalias() = a * x.col(k);
  return y;
}

Eigen::MatrixXd transposed_product(const Eigen::Ref<const Eigen::MatrixXd>& a,
                                   const Eigen::MatrixXd& x) {
  Eigen::MatrixXd y(a.cols(), x.cols());
  for (Eigen::Index k = 0; k < x.cols(); ++k)
    y.col(k).noalias() = a.transpose() * x.col(k);
  return y;
}

Eigen::MatrixXd without_mean(const Eigen::MatrixXd& potential) {
  return potential.rowwise() - potential.colwise().mean();
}

}  // namespace thinspot::solver
