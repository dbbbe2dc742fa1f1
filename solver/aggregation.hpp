#pragma once

#include <Eigen/SparseCore>

namespace thinspot::solver {

using FullRows = Eigen::SparseMatrix<double, Eigen::RowMajor>;

/// The way from a coarser field to one on the matrix's unknowns: groups of
/// neighbours that are strongly coupled move together, smoothed by one step of
/// Jacobi on these couplings. Unknowns without such neighbours (those that are
/// held, or all but held by a law) have empty rows: the smoother solves them.
/// Source: P. Vanek, J. Mandel, M. Brezina, Computing 56 (1996) 179 (from
/// memory).
/// @param a  symmetric, positive definite, both triangles
/// @returns  n x groups; rows add up to 1 where those of a add up to nothing
FullRows smoothed_groups(const FullRows& a);

}  // namespace thinspot::solver
