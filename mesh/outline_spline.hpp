#pragma once

#include "mesh/arc_fit.hpp"
#include "mesh/curve.hpp"

#include <optional>
#include <vector>

namespace thinspot::mesh {

/// A rational B-spline as drawings carry it.
struct Spline {
  int degree = 3;
  std::vector<double> knots;    ///< points + degree + 1 of them, ascending
  std::vector<Point> points;    ///< control points
  std::vector<double> weights;  ///< one a point, above 0; empty: all 1
};

/// @throws InputError with key "file" where numbers and counts do not make a
///         curve without gaps
ParametricCurve spline_curve(const Spline& spline);

/// The curve through points that has continuous curvature, over the lengths
/// of the chords (cubic spline).
/// @param closed  the last point joins the first smoothly
/// @param start,end  directions there; left out: no curvature at that end
/// @throws InputError with key "file" for fewer than two different points
ParametricCurve curve_through(std::vector<Point> points, bool closed,
                              const std::optional<Point>& start,
                              const std::optional<Point>& end);

/// A piece of an ellipse, counter-clockwise from one parameter to the other:
///   centre + major cos t + minor sin t.
ParametricCurve ellipse_curve(const Point& centre, const Point& major,
                              const Point& minor, double from, double to);

}  // namespace thinspot::mesh
