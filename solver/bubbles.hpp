#pragma once

#include <Eigen/Core>

#include <array>
#include <span>

namespace thinspot::solver {

/// What quartic triangles have beyond quadratic ones: on each of the edges
/// 0-1, 1-2, 2-0 a cubic and a quartic function that vanish on the other two,
/// then one cubic and two quartics that vanish on all edges.
inline constexpr int kBubbles = 9;

using BubbleValues = Eigen::Matrix<double, kBubbles, 1>;
using BubbleGradients = Eigen::Matrix<double, kBubbles, 2>;

BubbleValues bubble_values(double x, double y);
BubbleGradients bubble_gradients(double x, double y);

/// The two functions of an edge along it, 0 <= t <= 1; of the first the sign
/// turns with the direction.
Eigen::Vector2d edge_bubbles(double t);

/// Point of the reference triangle with all that is asked there.
struct BubblePoint {
  double x, y, weight;  ///< weights add up to 1/2
  Eigen::Matrix<double, 6, 1> shape;
  Eigen::Matrix<double, 6, 2> shape_gradient;
  BubbleGradients bubble_gradient;
};

/// Sixteen points, exact for products of two bubbles' gradients (degree 6): the
/// Gauss rule of four points, twice, over a square that is folded into the
/// triangle. Each of the two keeps degree 7, of which the folding takes one.
std::span<const BubblePoint> degree_6_rule();

}  // namespace thinspot::solver
