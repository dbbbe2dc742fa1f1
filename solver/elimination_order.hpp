#pragma once

#include "solver/laplace.hpp"

#include <vector>

namespace thinspot::solver {

/// Nodes in an order in which a Cholesky factor fills little: the factor of
/// what is left when some nodes are taken out of it fills no more.
/// @param stiffness  both triangles stored
/// @param last  of each node: whether it comes after all that do not; empty
///              where none does
/// @throws NoResultError where there is no room to find one.
std::vector<int> elimination_order(const SparseMatrix& stiffness,
                                   const std::vector<bool>& last = {});

/// The matrix with its rows and columns in that order.
SparseMatrix in_order(const SparseMatrix& matrix,
                      const std::vector<int>& order);

}  // namespace thinspot::solver
