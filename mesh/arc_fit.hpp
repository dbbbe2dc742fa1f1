#pragma once

#include "mesh/curve.hpp"

#include <functional>
#include <vector>

namespace thinspot::mesh {

/// A plane curve as functions of a parameter.
struct ParametricCurve {
  std::function<Point(double)> at;
  std::function<Point(double)> velocity;  ///< derivative of `at`
  /// Ascending: both ends of the parameter, and between them wherever the
  /// curve changes its formula. Corners may be at these alone.
  std::vector<double> knots;
};

/// Straight and circular pieces in place of a curve, end to end. They meet
/// tangent to tangent wherever the curve is smooth: a kink would be a corner
/// with a singular current. Circles and straight lines come out as such.
///
/// How near: a wall displaced by a wave of amplitude e and length h changes
/// the current density on it by the share 2 pi e/h where nothing but the
/// solution resists (first-order perturbation of a plane electrode). Pairs of
/// arcs of length h leave an S of amplitude e = k' h^3/324 (k' the change of
/// curvature along the curve), sharper in its middle: about 10 e/h. So
/// e <= 1e-4 h keeps the current density within 0.1 % even there; it averages
/// out over h, and polarization levels it. Beside that, e <= 2e-5 of the
/// curve's extent.
///
/// @param most  pieces
/// @throws InputError with key "file": more pieces, or a curve that is not
///         finite
std::vector<Curve> fit_arcs(const ParametricCurve& curve, int most);

}  // namespace thinspot::mesh
