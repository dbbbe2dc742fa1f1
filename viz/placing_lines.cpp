// How the lines of viz/placings are drawn.
#include "viz/palette.hpp"
#include "viz/panel_labels.hpp"
#include "viz/placings.hpp"

#include <cmath>

namespace thinspot::viz {

namespace {

const Paint kThin{.stroke = colour::pale_ink, .width = 0.7};

/// Beside the solid, as its own holder goes up from it.
bool draw_upright(Svg& svg, const Scene& scene, const Placing& placing,
                  const Frame& frame, LabelPlacer& placer,
                  const DimensionManner& manner) {
  const mesh::Box box =
      mesh::bounding_box(scene.section.solids[placing.solid].outline);
  const bool above = placing.line->from.y() > box.centre().y();
  const double y = above ? box.high.y() : box.low.y();
  for (const double off : {9.0, 16.0, 24.0})
    for (const bool right : {true, false}) {
      const double edge = right ? box.high.x() : box.low.x();
      const double x = edge + (right ? off : -off) / frame.scale;
      Dimension d = *placing.line;
      d.from.x() = d.to.x() = x;
      if (meets_solid(scene.section, frame, frame.page(d.from),
                      frame.page(d.to)) ||
          !draw_dimension(svg, scene.section, d, frame, placer, manner))
        continue;
      svg.line(frame.page(Point(edge, y)), frame.page(Point(x, y)), kThin);
      return true;
    }
  return false;
}

/// From the solid to the wall, along a straight one wherever nothing is in the
/// way.
bool draw_to_wall(Svg& svg, const Scene& scene, const Placing& placing,
                  const Frame& frame, LabelPlacer& placer,
                  const DimensionManner& manner) {
  const Point at = placing.line->from;
  const Point way = (placing.line->to - at).normalized();
  const bool across = std::abs(way.y()) > 0.5;  // seen from above
  std::vector<Point> shifts{Point::Zero()};
  if (scene.section.tank.shape == mesh::Tank::Shape::box) {
    shifts.clear();
    mesh::Box box =
        mesh::bounding_box(scene.section.solids[placing.solid].outline);
    box.high =
        box.high.cwiseMin(mesh::bounding_box(scene.section.liquid_bounds).high);
    for (const double share : {0.0, 0.2, -0.2, 0.35, -0.35, 0.48, -0.48}) {
      const Point to = box.centre() + share * box.size();
      shifts.emplace_back(across ? to.x() - at.x() : 0,
                          across ? 0 : to.y() - at.y());
    }
  }
  for (const Point& shift : shifts) {
    Dimension d = *placing.line;
    d.from += shift;
    d.to += shift;
    const Point from = frame.page(d.from), to = frame.page(d.to);
    const Point start = from + 1.5 * (to - from).normalized();
    if (meets_solid(scene.section, frame, start, to) ||
        !draw_dimension(svg, scene.section, d, frame, placer, manner))
      continue;
    svg.line(frame.page(at), from, kThin);
    return true;
  }
  return false;
}

/// A line from one end, upright or level, the angle between it and the solid,
/// and its size.
void draw_lean(Svg& svg, const Scene& scene, std::size_t solid,
               const Lean& lean, const Frame& frame, LabelPlacer& placer,
               double size) {
  const mesh::Solid& spec = scene.section.solids[solid].spec;
  const Point extent =
      mesh::bounding_box(mesh::outline_at_origin(spec, scene.section.cut))
          .size();
  const double reach = 0.5 * extent.maxCoeff();
  const Point straight = lean.level ? Point(1, 0) : Point(0, 1);
  const double c = std::cos(lean.angle), s = std::sin(lean.angle);
  const Point leaning(c * straight.x() - s * straight.y(),
                      s * straight.x() + c * straight.y());
  const TextStyle style{.size = size, .anchor = Anchor::middle, .halo = true};
  const std::string text = degrees(lean);
  const double width = text_width(text, style) + 3;
  for (const double end : {-1.0, 1.0})
    for (const double share : {1.3, 1.0, 1.6, 0.7}) {
      const Point foot = spec.at + end * reach * leaning;
      const double length = -end * share * reach;
      const Point from = frame.page(foot);
      const Point to = frame.page(foot + length * straight);
      const Point other = frame.page(foot + length * leaning);
      // Beyond the line's end, off the solid.
      const Point out = (to - from).normalized();
      const Point centre = to + Point(out.x() * (width / 2 + 3), out.y() * 9);
      const TextBox box = box_about(centre, width, 13);
      if (!frame.area.holds({box.left, box.top}) ||
          !frame.area.holds({box.right, box.bottom}) ||
          on_solid(scene.section, frame, box) || !placer.take(box))
        continue;
      svg.line(from, to, {.stroke = "#000", .width = 0.8, .dash = "4 3"});
      PathText arc;
      arc.move(to);
      arc.arc(other, (to - from).norm(), false, lean.angle < 0);
      svg.path(arc, {.stroke = "#000", .width = 0.8});
      svg.text(centre + Point(0, 4), text, style);
      block_line(placer, from, to);
      return;
    }
}

}  // namespace

void draw_placings(Svg& svg, const Scene& scene,
                   const std::vector<Placing>& placings, const Frame& frame,
                   LabelPlacer& placer, const DimensionManner& manner) {
  for (const Placing& placing : placings) {
    if (!placing.line) continue;
    const bool upright =
        std::abs(placing.line->to.x() - placing.line->from.x()) < 1e-9 &&
        scene.section.cut != mesh::Cut::plan;
    const auto draw = upright ? draw_upright : draw_to_wall;
    draw(svg, scene, placing, frame, placer, manner);
  }
  for (std::size_t k = 0; k < scene.section.solids.size(); ++k) {
    const mesh::Solid& spec = scene.section.solids[k].spec;
    const Lean lean = lean_of(spec, scene.section.cut);
    const bool beside = spec.role == mesh::Role::anode ||
                        spec.role == mesh::Role::thief ||
                        spec.role == mesh::Role::shield;
    if (beside && lean.angle != 0)
      draw_lean(svg, scene, k, lean, frame, placer, manner.size);
  }
}

}  // namespace thinspot::viz
