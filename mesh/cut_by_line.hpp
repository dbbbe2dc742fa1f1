#pragma once

#include "mesh/curve.hpp"

#include <string>

namespace thinspot::mesh {

/// A directed straight line.
struct Line {
  Point on = Point::Zero();  ///< any point of it
  Point along{1, 0};         ///< unit direction
};

/// What of an outline lies left of a line, closed along the line by curves of
/// the given face. Loops keep their sense; those wholly on the other side are
/// left out, those that fall apart become several.
/// @param tolerance  what is nearer to the line than this lies on it [m]
Outline left_of(const Outline& outline, const Line& line,
                const std::string& face, double tolerance);

}  // namespace thinspot::mesh
