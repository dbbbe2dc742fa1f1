#include "solver/elimination_order.hpp"

#include "mesh/errors.hpp"

#include <cholmod.h>

#include <cstddef>

namespace thinspot::solver {

std::vector<int> elimination_order(const SparseMatrix& stiffness,
                                   const std::vector<bool>& last) {
  cholmod_common common;
  cholmod_start(&common);
  common.print = 0;
  // Seen by CHOLMOD without a copy, which it does not write to.
  cholmod_sparse view{};
  view.nrow = view.ncol = static_cast<std::size_t>(stiffness.rows());
  view.nzmax = static_cast<std::size_t>(stiffness.nonZeros());
  view.p = const_cast<int*>(stiffness.outerIndexPtr());
  view.i = const_cast<int*>(stiffness.innerIndexPtr());
  view.x = const_cast<double*>(stiffness.valuePtr());
  view.stype = 1;  // of which it reads the upper half
  view.itype = CHOLMOD_INT;
  view.xtype = CHOLMOD_REAL;
  view.dtype = CHOLMOD_DOUBLE;
  view.sorted = 1;
  view.packed = 1;
  std::vector<int> order(view.nrow), member(last.begin(), last.end());
  const bool done =
      last.empty() ? cholmod_amd(&view, nullptr, 0, order.data(), &common) != 0
                   : cholmod_camd(&view, nullptr, 0, member.data(),
                                  order.data(), &common) != 0;
  cholmod_finish(&common);
  if (!done) throw NoResultError("the linear system could not be ordered");
  return order;
}

SparseMatrix in_order(const SparseMatrix& matrix,
                      const std::vector<int>& order) {
  Eigen::VectorXi place(matrix.rows());
  for (std::size_t k = 0; k < order.size(); ++k)
    place(order[k]) = static_cast<int>(k);
  SparseMatrix ordered;
  ordered = matrix.twistedBy(Eigen::PermutationMatrix<Eigen::Dynamic>(place));
  return ordered;
}

}  // namespace thinspot::solver
