#include "solver/element.hpp"

#include <cmath>

namespace thinspot::solver {

namespace {

std::array<TrianglePoint, 6> make_degree_4_rule() {
  // Two orbits of three points. The orbits' places a and weights w solve the
  // moment equations of degree 4 under the triangle's symmetry.
  const double root = std::sqrt(38 - 44 * std::sqrt(0.4));
  const double a1 = (8 - std::sqrt(10.0) + root) / 18;
  const double a2 = (8 - std::sqrt(10.0) - root) / 18;
  const double spread = std::sqrt(213125 - 53320 * std::sqrt(10.0));
  const double w1 = (620 + spread) / 3720 / 2;
  const double w2 = (620 - spread) / 3720 / 2;
  const double b1 = 1 - 2 * a1, b2 = 1 - 2 * a2;
  return {{{a1, a1, w1},
           {b1, a1, w1},
           {a1, b1, w1},
           {a2, a2, w2},
           {b2, a2, w2},
           {a2, b2, w2}}};
}

std::array<EdgePoint, 4> make_gauss_rule() {
  const double inner = std::sqrt(3.0 / 7 - 2.0 / 7 * std::sqrt(1.2));
  const double outer = std::sqrt(3.0 / 7 + 2.0 / 7 * std::sqrt(1.2));
  const double heavy = (18 + std::sqrt(30.0)) / 72;
  const double light = (18 - std::sqrt(30.0)) / 72;
  return {{{(1 - outer) / 2, light},
           {(1 - inner) / 2, heavy},
           {(1 + inner) / 2, heavy},
           {(1 + outer) / 2, light}}};
}

}  // namespace

std::span<const TrianglePoint> degree_2_rule() {
  static constexpr std::array<TrianglePoint, 3> rule{
      {{1. / 6, 1. / 6, 1. / 6},
       {2. / 3, 1. / 6, 1. / 6},
       {1. / 6, 2. / 3, 1. / 6}}};
  return rule;
}

std::span<const TrianglePoint> degree_4_rule() {
  static const auto rule = make_degree_4_rule();
  return rule;
}

Eigen::Matrix<double, 6, 1> shape_functions(double x, double y) {
  const double z = 1 - x - y;
  Eigen::Matrix<double, 6, 1> n;
  n << z * (2 * z - 1), x * (2 * x - 1), y * (2 * y - 1), 4 * x * z, 4 * x * y,
      4 * y * z;
  return n;
}

Eigen::Matrix<double, 6, 2> shape_gradients(double x, double y) {
  const double z = 1 - x - y;
  Eigen::Matrix<double, 6, 2> g;
  g << 1 - 4 * z, 1 - 4 * z, 4 * x - 1, 0, 0, 4 * y - 1, 4 * (z - x), -4 * x,
      4 * y, 4 * x, -4 * y, 4 * (z - y);
  return g;
}

std::span<const EdgePoint> gauss_rule() {
  static const auto rule = make_gauss_rule();
  return rule;
}

Eigen::Vector3d edge_functions(double t) {
  return {(1 - t) * (1 - 2 * t), t * (2 * t - 1), 4 * t * (1 - t)};
}

Eigen::Vector3d edge_derivatives(double t) {
  return {4 * t - 3, 4 * t - 1, 4 - 8 * t};
}

}  // namespace thinspot::solver
