#include "solver/electrode_laws.hpp"

#include "solver/dense.hpp"

#include <algorithm>

namespace thinspot::solver {

using Eigen::Index;
using Eigen::MatrixXd;

namespace {

constexpr Index kManyColumns = 8;

}  // namespace

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

MatrixXd held_shares(const Electrodes& electrodes, Index rows,
                     const LocalLaws& laws) {
  MatrixXd share = MatrixXd::Zero(rows, laws.drives());
  for (std::size_t e = 0; e < electrodes.each.size(); ++e) {
    if (laws.resistance[e] != 0) continue;
    const Electrode& electrode = electrodes.each[e];
    for (std::size_t k = 0; k < electrode.rows.size(); ++k)
      // On the axis a node may have no weight at all.
      share(electrode.rows[k], static_cast<Index>(e)) = std::max(
          electrode.weight(static_cast<Index>(k)), 1e-12 * electrode.measure);
  }
  for (Index r = 0; r < rows; ++r) {
    const double sum = share.row(r).sum();
    if (sum > 0) share.row(r) /= sum;
  }
  return share;
}

MatrixXd unit_loads(const Electrodes& electrodes, Index rows,
                    const LocalLaws& laws) {
  MatrixXd loads = MatrixXd::Zero(rows, laws.drives());
  for (std::size_t e = 0; e < electrodes.each.size(); ++e) {
    if (laws.resistance[e] == 0) continue;
    const Electrode& electrode = electrodes.each[e];
    const Tangent* tangent = laws.tangent(e);
    for (std::size_t n = 0; n < electrode.rows.size(); ++n) {
      const auto k = static_cast<Index>(n);
      double& load = loads(electrode.rows[n], static_cast<Index>(e));
      load += tangent ? tangent->weight(k)
                      : electrode.weight(k) / laws.resistance[e];
      if (tangent)
        loads(electrode.rows[n], loads.cols() - 1) -= tangent->rest(k);
    }
  }
  return loads;
}

std::vector<MatrixXd> leaving_through(const Electrodes& electrodes,
                                      const MatrixXd& potential,
                                      const MatrixXd& reaction,
                                      double conductivity,
                                      const LocalLaws& laws,
                                      const MatrixXd& share) {
  MatrixXd all = -conductivity * reaction;
  for_each_law_entry(electrodes, laws, [&](int j, int k, double v) {
    all.row(j) -= v * potential.row(k);
  });
  all += unit_loads(electrodes, all.rows(), laws);
  std::vector<MatrixXd> leaving(electrodes.each.size());
  for (std::size_t e = 0; e < electrodes.each.size(); ++e) {
    if (laws.resistance[e] != 0) continue;
    const std::vector<int>& rows = electrodes.each[e].rows;
    leaving[e] =
        share(rows, static_cast<Index>(e)).asDiagonal() * all(rows, Eigen::all);
  }
  return leaving;
}

Eigen::MatrixXd product(const Eigen::Ref<const Eigen::MatrixXd>& a,
                        const Eigen::MatrixXd& x) {
  if (x.cols() >= kManyColumns) return dense_product(a, x);
  Eigen::MatrixXd y(a.rows(), x.cols());
  for (Eigen::Index k = 0; k < x.cols(); ++k) y.col(k).noalias() = a * x.col(k);
  return y;
}

Eigen::MatrixXd transposed_product(const Eigen::Ref<const Eigen::MatrixXd>& a,
                                   const Eigen::MatrixXd& x) {
  if (x.cols() >= kManyColumns) return dense_transposed_product(a, x);
  Eigen::MatrixXd y(a.cols(), x.cols());
  for (Eigen::Index k = 0; k < x.cols(); ++k)
    y.col(k).noalias() = a.transpose() * x.col(k);
  return y;
}

Eigen::MatrixXd without_mean(const Eigen::MatrixXd& potential) {
  return potential.rowwise() - potential.colwise().mean();
}

}  // namespace thinspot::solver
