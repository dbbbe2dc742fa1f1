#include "viz/tank_drawing.hpp"

#include "viz/palette.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace thinspot::viz {

namespace {

using mesh::Curve;
using mesh::Cut;
using mesh::Section;

bool is_surface(const Curve& c) { return c.face == "surface"; }

/// Ends of the widest surface, left and right; the whole width where it
/// reaches the axis.
std::optional<std::array<Point, 2>> widest_surface(const Section& section) {
  std::optional<std::array<Point, 2>> widest;
  double most = 0;
  for (const mesh::Loop& loop : section.liquid_bounds.loops)
    for (const Curve& c : loop) {
      if (!is_surface(c) || mesh::length(c) <= most) continue;
      most = mesh::length(c);
      widest = {c.from, c.to};
      if (c.from.x() > c.to.x()) std::swap((*widest)[0], (*widest)[1]);
    }
  if (widest && section.cut == Cut::axisymmetric &&
      (*widest)[0].x() < 1e-9 * most)
    (*widest)[0].x() = -(*widest)[1].x();
  return widest;
}

}  // namespace

mesh::Outline tank_inside(const Section& section) {
  if (section.cut == Cut::plan) return section.liquid_bounds;
  if (section.tank.shape == mesh::Tank::Shape::outline &&
      !section.tank.drawn.loops.empty())
    return section.tank.drawn;
  const mesh::Box liquid = mesh::bounding_box(section.liquid_bounds);
  const double top = std::max(section.tank.height, liquid.high.y());
  const Point low_right(liquid.high.x(), liquid.low.y());
  const Point high_right(liquid.high.x(), top), high_left(liquid.low.x(), top);
  return {{{{liquid.low, low_right, 0, "wall"},
            {low_right, high_right, 0, "wall"},
            {high_right, high_left, 0, "wall"},
            {high_left, liquid.low, 0, "wall"}}}};
}

void draw_tank(Svg& svg, const Section& section, const Frame& frame,
               const std::string& clip) {
  mesh::Outline inside = tank_inside(section);
  const mesh::Box box = mesh::bounding_box(inside);
  const double touch = 1e-7 * box.size().maxCoeff();
  const bool round = section.cut == Cut::axisymmetric;
  const auto is_wall = [&](const Curve& c) {
    const bool mouth = section.cut != Cut::plan && !mesh::is_arc(c) &&
                       std::min(c.from.y(), c.to.y()) > box.high.y() - touch;
    const bool axis =
        round && std::max(std::abs(c.from.x()), std::abs(c.to.x())) < touch;
    return !mouth && !axis;
  };
  // Begun behind the mouth or the axis, the walls are one line around their
  // corners.
  bool closed = true;
  for (mesh::Loop& loop : inside.loops) {
    const auto open = std::find_if_not(loop.begin(), loop.end(), is_wall);
    closed = closed && open == loop.end();
    if (open != loop.end()) std::rotate(loop.begin(), open, loop.end());
  }
  const Paint wall{
      .stroke = colour::wall, .width = 2 * wall_width, .clip = clip};
  const Paint air{.fill = "#fff", .clip = clip};
  for (const bool mirrored : {false, true}) {
    if (mirrored && !round) break;
    svg.path(closed ? outline_path(inside, frame, mirrored)
                    : curves_path(inside, frame, is_wall, mirrored),
             wall);
  }
  for (const bool mirrored : {false, true}) {
    if (mirrored && !round) break;
    svg.path(outline_path(inside, frame, mirrored), air);
  }
}

void draw_level(Svg& svg, const Section& section, const Frame& frame,
                const std::string& clip) {
  if (section.cut == Cut::plan) return;
  const Paint line{.stroke = colour::potential, .width = 1.2, .clip = clip};
  svg.path(curves_path(section.liquid_bounds, frame, is_surface), line);
  if (section.cut == Cut::axisymmetric)
    svg.path(curves_path(section.liquid_bounds, frame, is_surface, true), line);
  const auto widest = widest_surface(section);
  if (!widest) return;
  const Point left = frame.page((*widest)[0]), right = frame.page((*widest)[1]);
  const double in = std::min(12.0, 0.5 * (right.x() - left.x()));
  const Point tip = right - Point(in, 1);
  svg.polygon({tip, tip + Point(-4.5, -7), tip + Point(4.5, -7)},
              {.fill = "#fff", .stroke = colour::potential, .clip = clip});
}

void label_level(Svg& svg, const Section& section, const Frame& frame,
                 LabelPlacer& placer) {
  const auto widest = widest_surface(section);
  if (section.cut == Cut::plan || !widest) return;
  const TextStyle style{
      .size = 11, .anchor = Anchor::end, .fill = colour::potential};
  const double left = std::max(frame.page((*widest)[0]).x(), frame.area.left);
  const Point right = frame.page((*widest)[1]) + Point(-20, -4);
  for (double aside = 0; right.x() - aside > left + 60; aside += 8) {
    const Point at = right - Point(aside, 0);
    const TextBox box = text_box(at, "liquid level", style);
    if (box.top < frame.area.top || box.left < left) return;
    if (!placer.take(box.grown(2))) continue;
    svg.text(at, "liquid level", style);
    return;
  }
}

}  // namespace thinspot::viz
