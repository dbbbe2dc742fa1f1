#include "solver/condense.hpp"

#include "mesh/errors.hpp"

#include <cholmod.h>

#include <memory>
#include <vector>

namespace thinspot::solver {

namespace {

class CholmodSession {
 public:
  CholmodSession() {
    cholmod_start(&common);
    common.print = 0;
    common.final_ll = 1;  // LL', whose trailing block can be read as it is
    common.supernodal = CHOLMOD_SIMPLICIAL;
    common.nmethods = 1;
    common.method[0].ordering = CHOLMOD_GIVEN;
    // Postordering would put the electrodes of one pool before the liquid of
    // the next.
    common.postorder = 0;
  }
  ~CholmodSession() { cholmod_finish(&common); }
  CholmodSession(const CholmodSession&) = delete;
  CholmodSession& operator=(const CholmodSession&) = delete;

  cholmod_common common;
};

struct FreeFactor {
  cholmod_common* common;
  void operator()(cholmod_factor* f) const { cholmod_free_factor(&f, common); }
};

/// The upper triangle of a symmetric matrix, seen by CHOLMOD without a copy.
cholmod_sparse view_of(SparseMatrix& upper) {
  cholmod_sparse view{};
  view.nrow = static_cast<std::size_t>(upper.rows());
  view.ncol = static_cast<std::size_t>(upper.cols());
  view.nzmax = static_cast<std::size_t>(upper.nonZeros());
  view.p = upper.outerIndexPtr();
  view.i = upper.innerIndexPtr();
  view.x = upper.valuePtr();
  view.stype = 1;
  view.itype = CHOLMOD_INT;
  view.xtype = CHOLMOD_REAL;
  view.dtype = CHOLMOD_DOUBLE;
  view.sorted = 1;
  view.packed = 1;
  return view;
}

/// All electrodes' mass in boundary rows, over the largest electrode's own
/// length: of the size of the stiffness, so that S loses no digits to it.
SparseMatrix reference_mass(const Electrodes& electrodes) {
  double measure = 0;
  std::vector<Eigen::Triplet<double>> entries;
  for (const Electrode& e : electrodes.each) {
    measure = std::max(measure, e.measure);
    for (Eigen::Index k = 0; k < e.mass.outerSize(); ++k)
      for (SparseMatrix::InnerIterator it(e.mass, k); it; ++it)
        entries.emplace_back(e.rows[static_cast<std::size_t>(it.row())],
                             e.rows[static_cast<std::size_t>(it.col())],
                             it.value());
  }
  const auto nb = static_cast<Eigen::Index>(electrodes.nodes.mesh_node.size());
  SparseMatrix mass(nb, nb);
  mass.setFromTriplets(entries.begin(), entries.end());
  return mass / measure;
}

}  // namespace

Eigen::MatrixXd Interior::extend(const Eigen::MatrixXd& on_boundary) const {
  const auto n = static_cast<Eigen::Index>(node.size());
  const auto inside = n - static_cast<Eigen::Index>(boundary.size());
  // One row a node: all fields of a node lie together.
  Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor> x(
      n, on_boundary.cols());
  for (Eigen::Index k = inside; k < n; ++k)
    x.row(k) = on_boundary.row(boundary[static_cast<std::size_t>(k - inside)]);
  for (Eigen::Index k = inside - 1; k >= 0; --k) {
    const auto from =
        static_cast<std::size_t>(begin[static_cast<std::size_t>(k)]);
    const auto to =
        static_cast<std::size_t>(begin[static_cast<std::size_t>(k) + 1]);
    x.row(k).setZero();
    for (std::size_t p = from + 1; p < to; ++p)
      x.row(k) -= value[p] * x.row(index[p]);
    x.row(k) /= value[from];
  }
  Eigen::MatrixXd everywhere(n, on_boundary.cols());
  for (Eigen::Index k = 0; k < n; ++k)
    everywhere.row(node[static_cast<std::size_t>(k)]) = x.row(k);
  return everywhere;
}

Condensed condense(const SparseMatrix& stiffness,
                   const Electrodes& electrodes) {
  const std::vector<int>& mesh_node = electrodes.nodes.mesh_node;
  const std::vector<int>& row = electrodes.nodes.row;
  const auto n = stiffness.rows();
  const auto nb = static_cast<Eigen::Index>(mesh_node.size());
  // Planar, stiffness has no dimension; axisymmetric it is a length. The mean
  // diagonal makes the reference mass fit both.
  const SparseMatrix mass =
      reference_mass(electrodes) * (stiffness.diagonal().sum() / double(n));

  std::vector<Eigen::Triplet<double>> added;
  for (Eigen::Index k = 0; k < nb; ++k)
    for (SparseMatrix::InnerIterator it(mass, k); it; ++it)
      added.emplace_back(mesh_node[static_cast<std::size_t>(it.row())],
                         mesh_node[static_cast<std::size_t>(it.col())],
                         it.value());
  SparseMatrix spread(n, n);
  spread.setFromTriplets(added.begin(), added.end());
  SparseMatrix upper = (stiffness + spread).triangularView<Eigen::Upper>();
  upper.makeCompressed();

  CholmodSession session;
  cholmod_common* common = &session.common;
  cholmod_sparse matrix = view_of(upper);
  const auto size = static_cast<std::size_t>(n);
  std::vector<int> member(size), order(size);
  for (std::size_t k = 0; k < size; ++k) member[k] = row[k] >= 0 ? 1 : 0;
  if (!cholmod_camd(&matrix, nullptr, 0, member.data(), order.data(), common))
    throw NoResultError("the linear system could not be ordered");
  const std::unique_ptr<cholmod_factor, FreeFactor> factor(
      cholmod_analyze_p(&matrix, order.data(), nullptr, 0, common),
      FreeFactor{common});
  if (!factor || !cholmod_factorize(&matrix, factor.get(), common) ||
      common->status != CHOLMOD_OK || factor->minor < size)
    throw NoResultError(
        "the linear system is not definite: the mesh or the section is "
        "unsound");

  // Boundary row of a trailing row of the factor.
  const int* perm = static_cast<const int*>(factor->Perm);
  const auto first = static_cast<int>(n - nb);
  std::vector<int> boundary_row(static_cast<std::size_t>(nb));
  for (Eigen::Index k = 0; k < nb; ++k) {
    const int r = row[static_cast<std::size_t>(perm[first + k])];
    if (r < 0) throw NoResultError("the electrode nodes were not ordered last");
    boundary_row[static_cast<std::size_t>(k)] = r;
  }
  const int* begin = static_cast<const int*>(factor->p);
  const int* count = static_cast<const int*>(factor->nz);
  const int* index = static_cast<const int*>(factor->i);
  const double* value = static_cast<const double*>(factor->x);
  Eigen::MatrixXd l = Eigen::MatrixXd::Zero(nb, nb);
  for (Eigen::Index k = 0; k < nb; ++k) {
    const int column = first + static_cast<int>(k);
    for (int p = begin[column]; p < begin[column] + count[column]; ++p)
      l(index[p] - first, k) = value[p];
  }
  Eigen::MatrixXd trailing = Eigen::MatrixXd::Zero(nb, nb);
  trailing.selfadjointView<Eigen::Lower>().rankUpdate(l);
  Eigen::MatrixXd s(nb, nb);
  for (Eigen::Index j = 0; j < nb; ++j)
    for (Eigen::Index k = j; k < nb; ++k) {
      const Eigen::Index a = boundary_row[static_cast<std::size_t>(j)];
      const Eigen::Index b = boundary_row[static_cast<std::size_t>(k)];
      s(a, b) = s(b, a) = trailing(k, j);
    }
  s -= Eigen::MatrixXd(mass);

  Condensed result{std::move(s), {}};
  Interior& interior = result.interior;
  interior.node.assign(perm, perm + n);
  interior.boundary.assign(boundary_row.begin(), boundary_row.end());
  interior.begin.push_back(0);
  for (int k = 0; k < first; ++k) {
    interior.index.insert(interior.index.end(), index + begin[k],
                          index + begin[k] + count[k]);
    interior.value.insert(interior.value.end(), value + begin[k],
                          value + begin[k] + count[k]);
    interior.begin.push_back(static_cast<int>(interior.index.size()));
  }
  return result;
}

}  // namespace thinspot::solver
