#include "solver/preparation.hpp"

#include "mesh/shape.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace thinspot::solver {

namespace {

// An arc in this many chords is short of its area by less than 1e-4.
constexpr int kPieces = 64;

/// Integral of |distance from an axis through the origin| over the area [m3],
/// by Green's theorem along the outline.
/// @param axis  0: x, 1: y
double moment(const mesh::Outline& outline, int axis, double offset) {
  const int along = axis, across = 1 - axis;
  double sum = 0;
  for (const mesh::Loop& loop : outline.loops)
    for (const mesh::Curve& c : loop)
      for (int k = 0; k < kPieces; ++k) {
        const mesh::Point a = mesh::point_at(c, double(k) / kPieces);
        const mesh::Point b = mesh::point_at(c, double(k + 1) / kPieces);
        const double middle = 0.5 * (a[across] + b[across]) + offset;
        sum += 0.5 * middle * std::abs(middle) * (b[along] - a[along]);
      }
  return axis == 0 ? -sum : sum;
}

}  // namespace

std::optional<double> part_volume(const Case& c) {
  constexpr double pi = std::numbers::pi;
  const auto part = std::find_if(
      c.section.solids.begin(), c.section.solids.end(),
      [](const mesh::Solid& s) { return s.role == mesh::Role::part; });
  if (part == c.section.solids.end()) return std::nullopt;
  const mesh::Outline outline = mesh::outline_at_origin(*part, c.section.cut);
  if (c.section.cut == mesh::Cut::axisymmetric) {
    // On the axis both halves are drawn, beside it the one there is.
    const double x = part->at.x();
    return (x == 0 ? pi : 2 * pi) * moment(outline, 1, x);
  }
  if (part->shape == "coin") return pi * moment(outline, 0, 0);
  const auto size = [&](const char* name) {
    const auto found = part->sizes.find(name);
    return found == part->sizes.end() ? 0.0 : found->second;
  };
  if (part->shape == "rod" && size("length") > 0)
    return pi / 4 * size("diameter") * size("diameter") * size("length");
  if (c.depth) return mesh::area(outline) * *c.depth;
  return std::nullopt;
}

}  // namespace thinspot::solver
