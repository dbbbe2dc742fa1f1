#include "mesh/millimetres.hpp"

#include <fmt/format.h>

#include <cmath>

namespace thinspot::mesh {

namespace {

/// Far below any part, and above what rounding leaves in a tank of metres [m].
constexpr double kNothing = 1e-13;

}  // namespace

std::string in_mm(double metres) {
  return fmt::format("{:.4g} mm",
                     std::abs(metres) < kNothing ? 0 : 1e3 * metres);
}

std::string in_mm(const Point& point) {
  return fmt::format("x {}, y {}", in_mm(point.x()), in_mm(point.y()));
}

}  // namespace thinspot::mesh
