#pragma once

#include "mesh/curve.hpp"

#include <string>

namespace thinspot::mesh {

/// As the user reads it, "2.4 mm"; what rounding left of a zero is "0 mm".
std::string in_mm(double metres);

/// "x 2.4 mm, y 60 mm".
std::string in_mm(const Point& point);

}  // namespace thinspot::mesh
