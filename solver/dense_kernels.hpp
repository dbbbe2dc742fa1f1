#pragma once

namespace thinspot::solver {

/// Work on matrices that are full, column after column, without gaps. Plain
/// pointers, as it is compiled once for any processor and once for those with
/// wide registers, which must not share a template.
struct DenseKernels {
  /// Cholesky: the lower triangle of a, n x n, becomes its factor.
  /// @returns false where it is not positive definite.
  bool (*factor)(double* a, long n);
  /// x, n x columns, becomes the solution for the right-hand sides in it.
  void (*solve)(const double* factor, long n, double* x, long columns);
  /// c = a b: rows x inner times inner x columns.
  void (*multiply)(const double* a, const double* b, double* c, long rows,
                   long inner, long columns);
  /// c = a^T b: a is inner x rows.
  void (*multiply_transposed)(const double* a, const double* b, double* c,
                              long rows, long inner, long columns);
};

/// Any processor; and x86 with AVX2 and fused multiplication, nullptr elsewhere
/// (measured on 800 rows: 0.31 to 0.38 of the time).
const DenseKernels* plain_kernels();
const DenseKernels* wide_kernels();

}  // namespace thinspot::solver
