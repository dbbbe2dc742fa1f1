#pragma once

#include <Eigen/Core>

#include <array>
#include <span>

namespace thinspot::solver {

/// Point of the reference triangle (0,0) (1,0) (0,1) and its weight; the
/// weights of a rule add up to 1/2.
struct TrianglePoint {
  double x, y, weight;
};

/// Exact for polynomials of degree 2 (three points).
std::span<const TrianglePoint> degree_2_rule();
/// Exact for degree 4 (six points). Source: Strang and Fix, An Analysis of the
/// Finite Element Method, 1973, table 4.1 (values recomputed).
std::span<const TrianglePoint> degree_4_rule();

/// P2 shape functions: corners 0..2, then middles of 0-1, 1-2, 2-0.
Eigen::Matrix<double, 6, 1> shape_functions(double x, double y);
/// Their derivatives, one row a function.
Eigen::Matrix<double, 6, 2> shape_gradients(double x, double y);

/// Point of the reference edge 0..1; the weights add up to 1.
struct EdgePoint {
  double t, weight;
};

/// Four Gauss-Legendre points, exact for degree 7.
std::span<const EdgePoint> gauss_rule();

/// P2 edge functions: from, to, middle.
Eigen::Vector3d edge_functions(double t);
Eigen::Vector3d edge_derivatives(double t);

}  // namespace thinspot::solver
