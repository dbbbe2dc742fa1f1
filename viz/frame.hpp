#pragma once

#include "mesh/curve.hpp"
#include "viz/svg.hpp"

#include <functional>
#include <vector>

namespace thinspot::viz {

/// Where a piece of the section [m, y up] lies on the page [y down].
struct Frame {
  TextBox area;      ///< on the page
  mesh::Box model;   ///< what it shows [m]
  double scale = 1;  ///< page units per metre

  Point page(const Point& p) const {
    return {area.left + (p.x() - model.low.x()) * scale,
            area.bottom - (p.y() - model.low.y()) * scale};
  }
  std::vector<Point> page(const std::vector<Point>& points) const;
  /// The other way round [m].
  Point section(const Point& p) const {
    return {model.low.x() + (p.x() - area.left) / scale,
            model.low.y() + (area.bottom - p.y()) / scale};
  }
};

/// The room of a frame right of the axis x = 0, or left of it.
TextBox right_of_axis(const Frame& frame);
TextBox left_of_axis(const Frame& frame);

/// Frame at left, top that shows `model` at `scale`.
Frame frame_at(double left, double top, const mesh::Box& model, double scale);

/// Outlines as true lines and arcs. @param mirrored  seen in the axis x = 0.
PathText outline_path(const mesh::Outline& outline, const Frame& frame,
                      bool mirrored = false);

/// Those of its curves that `which` picks, as open lines.
PathText curves_path(const mesh::Outline& outline, const Frame& frame,
                     const std::function<bool(const mesh::Curve&)>& which,
                     bool mirrored = false);

/// Whether a point lies in the box, edges included.
bool inside(const mesh::Box& box, const Point& p);

/// A chain with the points left out that lie within `tolerance` of what
/// remains (Douglas and Peucker 1973); ends are kept, of a closed chain the
/// two points farthest apart.
std::vector<Point> simplified(const std::vector<Point>& chain, double tolerance,
                              bool closed = false);

}  // namespace thinspot::viz
