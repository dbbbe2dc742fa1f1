#pragma once

#include "solver/bubbles.hpp"

#include <Eigen/Core>

#include <array>
#include <cstddef>

namespace thinspot::solver {

using TriangleNodes = Eigen::Matrix<double, 2, 6>;

/// Integrals of products of gradients on one triangle, at conductivity 1, of
/// two bubbles and of a bubble with a P2 function [planar 1, axisymmetric m].
struct BubbleForms {
  Eigen::Matrix<double, kBubbles, kBubbles> energy;
  Eigen::Matrix<double, kBubbles, 6> mixed;
};
BubbleForms bubble_forms(const TriangleNodes& nodes, bool axisymmetric);

/// Integrals of each edge's two bubbles times the outward derivative of a P2
/// function, likewise; rows 2 k and 2 k + 1 are of edge k, from corner k to
/// k + 1.
using OutwardForm = Eigen::Matrix<double, 6, 6>;
OutwardForm outward_form(const TriangleNodes& nodes, bool axisymmetric);

/// A local edge's Gauss points, walked from corner k to corner k + 1.
struct EdgeSamples {
  std::array<Eigen::Matrix<double, 6, 1>, 4> shape;
  std::array<Eigen::Matrix<double, 6, 2>, 4> gradient;
  std::array<Eigen::Vector2d, 4> bubbles;
  Eigen::Vector2d along;  ///< direction in the reference triangle
};
const EdgeSamples& edge_samples(std::size_t edge);

/// What an integral is multiplied by at a point: 1, or the way around.
double around(bool axisymmetric, const TriangleNodes& nodes,
              const Eigen::Matrix<double, 6, 1>& shape);

}  // namespace thinspot::solver
