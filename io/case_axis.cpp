#include "io/case_reading.hpp"

#include "io/trade_units.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace thinspot::io {

namespace {

/// Both halves of a solid on the axis may differ by this share of its size:
/// less than what the result is good for, more than what is lost in fitting
/// arcs to a drawn spline.
constexpr double kSame = 1e-4;
constexpr double kOnAxis = 1e-9;  // [m], rounding of "above" and "below"

bool is_upright(double turn) {
  const double halves = turn / std::numbers::pi;
  return std::abs(halves - std::round(halves)) < 1e-9;
}

/// Turned by its sizes into a body that has no other form: a coin, a rod.
bool is_body(const mesh::Solid& solid) {
  const mesh::ShapeKind* kind = mesh::find_shape(solid.shape);
  return kind && kind->real_area(solid.sizes).has_value();
}

/// Whether the outline is its own mirror image left and right of x = 0.
bool is_mirrored(const mesh::Outline& outline) {
  return mesh::is_mirrored(
      outline, kSame * mesh::bounding_box(outline).size().maxCoeff());
}

mesh::Outline turned(const mesh::Solid& solid, const mesh::Point& shift) {
  return mesh::moved(mesh::outline_at_origin(solid, mesh::Cut::axisymmetric),
                     solid.turn, shift);
}

/// x of the solid's centre; of one above or below the parts, centred on them.
/// @returns nullopt where there is no part.
std::optional<double> centre_x(const CaseReading& r, const mesh::Solid& solid) {
  if (!solid.side) return solid.at.x();
  mesh::Outline parts;
  for (const mesh::Solid& s : r.content.section.solids) {
    if (s.role != mesh::Role::part) continue;
    const mesh::Outline part = turned(s, s.at);
    parts.loops.insert(parts.loops.end(), part.loops.begin(), part.loops.end());
  }
  if (parts.loops.empty()) return std::nullopt;
  return mesh::bounding_box(parts).centre().x() -
         mesh::bounding_box(turned(solid, {0, 0})).centre().x();
}

void check_centre(CaseReading& r, const mesh::Solid& solid,
                  const std::string& place_key, double x) {
  const bool body = is_body(solid), on_axis = std::abs(x) < kOnAxis;
  if (x < -kOnAxis && solid.side) return;  // the part does, and is noted
  if (x < -kOnAxis)
    r.findings.add(place_key, "lies left of the axis",
                   "x is the radius: 0 or more, as in at = [\"0 mm\", \"50 "
                   "mm\"]");
  else if (body && !on_axis)
    r.findings.add(place_key,
                   fmt::format("a {} must stand on the axis", solid.shape),
                   "at = [\"0 mm\", y]; a ring is a plate beside the axis");
  else if (body && !is_upright(solid.turn))
    r.findings.add(solid.key + ".turn",
                   "turns a solid of revolution off its axis",
                   "0 deg or 180 deg");
  else if (!body && on_axis && !is_mirrored(turned(solid, {0, 0})))
    r.findings.add(
        place_key, "stands on the axis, and its left is not like its right",
        fmt::format("wholly at one side, as a ring: x = {:.4g} mm puts its "
                    "left edge on the axis",
                    -to_mm(mesh::bounding_box(turned(solid, {0, 0})).low.x())));
}

}  // namespace

void check_on_axis(CaseReading& r, const mesh::Solid& solid,
                   const std::string& place_key) {
  if (r.content.section.cut != mesh::Cut::axisymmetric) return;
  if (solid.side == mesh::Side::left) {
    r.findings.add(place_key, "left of the axis is the same as right of it",
                   "side = \"right\"");
  } else if (solid.side == mesh::Side::right) {
    if (is_body(solid))
      r.findings.add(place_key,
                     fmt::format("a {} must stand on the axis", solid.shape),
                     "above or below, or a plate, which becomes a ring");
  } else if (const auto x = centre_x(r, solid)) {
    check_centre(r, solid, place_key, *x);
  }
}

}  // namespace thinspot::io
