#include "viz/dimensions.hpp"

#include "mesh/digits.hpp"
#include "viz/palette.hpp"
#include "viz/panel_labels.hpp"
#include "viz/section_layout.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace thinspot::viz {

namespace {

constexpr double arrow = 6;  ///< length of a tip on the page

/// Shortest line between two outlines: sampled along both, then brought to
/// the foot of the perpendicular from either side in turn.
struct Line {
  Point from = Point::Zero(), to = Point::Zero();
  double length = std::numeric_limits<double>::max();
};

Line shortest(const mesh::Outline& a, const mesh::Outline& b,
              const Point& middle) {
  Line best;
  // Along straight flanks many are alike: the one nearest to the middle of
  // the part reads best.
  double aside = 0;
  for (const mesh::Loop& loop : a.loops)
    for (const mesh::Curve& c : loop)
      for (int k = 0; k <= 40; ++k) {
        const Point p = mesh::point_at(c, k / 40.0);
        const Point q = mesh::nearest(b, p).at;
        const double length = (q - p).norm();
        const double off = (p - middle).norm();
        const bool shorter = length < best.length * (1 - 1e-6);
        const bool alike = length <= best.length * (1 + 1e-6) && off < aside;
        if (!shorter && !alike) continue;
        best = {p, q, std::min(length, best.length)};
        aside = off;
      }
  for (int turn = 0; turn < 20; ++turn) {
    best.from = mesh::nearest(a, best.to).at;
    best.to = mesh::nearest(b, best.from).at;
  }
  best.length = (best.to - best.from).norm();
  return best;
}

/// Whether a line runs along one of the others.
bool is_in_the_way(const std::vector<Line>& others, const Line& line,
                   double near) {
  for (const Line& other : others)
    for (int k = 1; k < 10; ++k) {
      const Point p = line.from + (line.to - line.from) * (k / 10.0);
      const mesh::Curve across{other.from, other.to, 0, ""};
      if (mesh::nearest(across, p).distance < near) return true;
    }
  return false;
}

std::size_t nearest_part(const mesh::Section& section,
                         const mesh::PlacedSolid& anode) {
  std::size_t best = 0;
  double least = std::numeric_limits<double>::max();
  for (std::size_t k = 0; k < section.solids.size(); ++k) {
    if (section.solids[k].spec.role != mesh::Role::part) continue;
    const double d = mesh::distance(section.solids[k].outline, anode.outline);
    if (d >= least) continue;
    least = d;
    best = k;
  }
  return best;
}

/// Of what is under the liquid's surface.
Point middle_of(const mesh::Section& section, const mesh::PlacedSolid& solid) {
  mesh::Box box = mesh::bounding_box(solid.outline);
  if (section.cut != mesh::Cut::plan)
    box.high.y() = std::min(box.high.y(),
                            mesh::bounding_box(section.liquid_bounds).high.y());
  return box.centre();
}

void draw_tip(Svg& svg, Point tip, Point way) {
  const Point across(-way.y(), way.x());
  svg.polygon(
      {tip, tip - arrow * way + 2 * across, tip - arrow * way - 2 * across},
      {.fill = colour::ink});
}

bool runs_over(const std::vector<TextBox>& boxes, Point from, Point to) {
  constexpr double step = 4;
  const int pieces = 1 + static_cast<int>((to - from).norm() / step);
  for (const TextBox& box : boxes)
    for (int k = 0; k <= pieces; ++k)
      if (box.holds(from + (to - from) * (static_cast<double>(k) / pieces)))
        return true;
  return false;
}

/// Whether a line would run over a text, or close along another line.
bool is_in_the_way(const DrawnDimensions& drawn, Point from, Point to) {
  constexpr double close = 6;
  if (runs_over(drawn.texts, from, to)) return true;
  const Point way = (to - from).normalized(), across(-way.y(), way.x());
  const double length = (to - from).norm();
  for (const auto& [a, b] : drawn.lines) {
    const bool along = std::abs(across.dot((b - a).normalized())) < 0.1;
    const bool near = std::abs(across.dot(0.5 * (a + b) - from)) < close;
    const double start = way.dot(a - from), end = way.dot(b - from);
    const bool beside =
        std::min(start, end) < length - 1 && std::max(start, end) > 1;
    if (along && near && beside) return true;
  }
  return false;
}

TextStyle dimension_text() {
  return {.size = 11, .anchor = Anchor::middle, .halo = true};
}

}  // namespace

std::string millimetres(double metres) { return digits(metres * 1e3) + " mm"; }

std::vector<Dimension> free_distances(const Scene& scene,
                                      const std::vector<mesh::Role>& roles) {
  const auto& solids = scene.section.solids;
  std::vector<Line> lines;
  for (std::size_t k = 0; k < solids.size(); ++k) {
    if (std::find(roles.begin(), roles.end(), solids[k].spec.role) ==
        roles.end())
      continue;
    const std::size_t part = nearest_part(scene.section, solids[k]);
    const mesh::PlacedSolid& near = solids[part];
    const Point size = mesh::bounding_box(near.outline).size();
    const Point middle = middle_of(scene.section, near);
    // Side by side with the others where there is a choice.
    Line best = shortest(near.outline, solids[k].outline, middle);
    for (const double share : {0.3, -0.3, 0.15, -0.15}) {
      if (!is_in_the_way(lines, best, 0.08 * size.maxCoeff())) break;
      best = shortest(near.outline, solids[k].outline, middle + share * size);
    }
    lines.push_back(best);
  }
  std::vector<Dimension> found;
  for (const Line& line : lines)
    found.push_back({line.from, line.to, millimetres(line.length)});
  return found;
}

bool draw_dimension(Svg& svg, const mesh::Section& section,
                    const Dimension& dimension, const Frame& frame,
                    LabelPlacer& placer, const DimensionManner& manner) {
  const Point from = frame.page(dimension.from), to = frame.page(dimension.to);
  const double length = (to - from).norm();
  if (length < 1) return false;
  const Point way = (to - from) / length;
  const Point across = way.x() < 0 || (way.x() == 0 && way.y() > 0)
                           ? Point(-way.y(), way.x())
                           : Point(way.y(), -way.x());
  if (runs_over(manner.kept_free, from, to)) return false;
  if (manner.drawn != nullptr && is_in_the_way(*manner.drawn, from, to))
    return false;
  TextStyle style = dimension_text();
  style.size = manner.size;
  const double width = text_width(dimension.text, style) + 4;
  for (const Point& end : {from, to})
    if (!frame.area.grown(1).holds(end)) return false;
  const auto place = [&](double share, double off) {
    const double lift = std::copysign(
        std::abs(across.y() * off) +
            std::abs(across.x()) * (width / 2 + std::abs(off) - 7),
        off);
    const Point centre = from + share * (to - from) + lift * across;
    const TextBox box = box_about(centre, width, 14);
    if (!frame.area.grown(2).holds({box.left, box.top}) ||
        !frame.area.grown(2).holds({box.right, box.bottom}) ||
        on_solid(section, frame, box) || !placer.take(box))
      return false;
    svg.line(from, to, {.stroke = colour::ink, .width = 0.9});
    if (length > 2.5 * arrow) {
      draw_tip(svg, from, -way);
      draw_tip(svg, to, way);
    }
    svg.text(centre + Point(0, 4), dimension.text, style);
    block_line(placer, from, to);
    if (manner.drawn != nullptr) {
      manner.drawn->texts.push_back(box.grown(-1));
      manner.drawn->lines.emplace_back(from, to);
      placer.block(box.grown(3));
    }
    return true;
  };
  // Beside the line, from its middle outwards, then beyond its ends.
  for (const double off : {9.0, -9.0, 18.0, -18.0})
    for (const double share : {0.5, 0.35, 0.65, 0.2, 0.8})
      if (place(share, off)) return true;
  if (manner.near) return false;
  for (const double off : {9.0, -9.0, 18.0, -18.0, 30.0, -30.0, 45.0, -45.0})
    for (const double share : {-0.1, 1.1, 0.5})
      if (place(share, off)) return true;
  return false;
}

void draw_size(Svg& svg, const Scene& scene, const Frame& frame,
               LabelPlacer& placer, const DimensionManner& manner) {
  const mesh::Box box = solid_box(scene.section, scene.shown);
  const bool round = scene.round() && box.low.x() <= 1e-9 * box.high.x();
  const double low_x = round ? -box.high.x() : box.low.x();
  const Paint thin{.stroke = colour::pale_ink, .width = 0.7};
  const auto draw = [&](const Dimension& d, Point from, Point to) {
    const Point a = frame.page(d.from), b = frame.page(d.to);
    if (!draw_dimension(svg, scene.section, d, frame, placer, manner))
      return false;
    svg.line(frame.page(from), a, thin);
    svg.line(frame.page(to), b, thin);
    return true;
  };
  // Farther out beyond what is in the way; above or below, right or left.
  const auto width = [&](double off) {
    for (const bool above : {true, false}) {
      const double edge = above ? box.high.y() : box.low.y();
      const double y = edge + (above ? off : -off);
      const Dimension d{
          {low_x, y},
          {box.high.x(), y},
          (round ? "\u00D8 " : "") + millimetres(box.high.x() - low_x)};
      if (draw(d, {low_x, edge}, {box.high.x(), edge})) return true;
    }
    return false;
  };
  const auto height = [&](double off) {
    for (const bool right : {true, false}) {
      const double edge = right ? box.high.x() : low_x;
      const double x = edge + (right ? off : -off);
      const Dimension d{
          {x, box.low.y()}, {x, box.high.y()}, millimetres(box.size().y())};
      if (draw(d, {edge, box.low.y()}, {edge, box.high.y()})) return true;
    }
    return false;
  };
  const double step = 10 / frame.scale;
  for (const double off : {step, 3 * step})
    if (width(off) || manner.kept_free.empty()) break;
  for (const double off : {step, 3 * step})
    if (height(off) || manner.kept_free.empty()) break;
}

void draw_depth_of_part(Svg& svg, const Scene& scene, const Frame& frame,
                        LabelPlacer& placer, const DimensionManner& manner) {
  if (scene.section.cut == mesh::Cut::plan) return;
  mesh::Box box = solid_box(scene.section, scene.shown);
  for (std::size_t k = 0; k < scene.section.solids.size(); ++k) {
    if (scene.section.solids[k].spec.role != mesh::Role::part) continue;
    const mesh::Box other = solid_box(scene.section, k);
    if (other.high.y() > box.high.y()) box = other;
  }
  const double level = mesh::bounding_box(scene.section.liquid_bounds).high.y();
  const bool out = box.high.y() > level - 1e-6;
  const double y = out ? box.low.y() : box.high.y();
  const Paint thin{.stroke = colour::pale_ink, .width = 0.7};
  for (const double off : {12.0, 22.0, 34.0})
    for (const bool right : {true, false}) {
      const double edge = right ? box.high.x() : box.low.x();
      const double x = edge + (right ? off : -off) / frame.scale;
      const Point low(x, y), high(x, level);
      if (meets_solid(scene.section, frame, frame.page(low),
                      frame.page(high)) ||
          !draw_dimension(svg, scene.section,
                          {low, high, millimetres(level - y)}, frame, placer,
                          manner))
        continue;
      svg.line(frame.page(Point(edge, y)), frame.page(low), thin);
      return;
    }
}

void draw_depth_of_liquid(Svg& svg, const Scene& scene, const Frame& frame,
                          LabelPlacer& placer, const DimensionManner& manner) {
  if (scene.section.cut == mesh::Cut::plan) return;
  const mesh::Box liquid = mesh::bounding_box(scene.section.liquid_bounds);
  DimensionManner near = manner;
  near.near = true;
  for (const DimensionManner& how : {near, manner})
    for (const double share :
         {0.94, 0.06, 0.85, 0.15, 0.75, 0.25, 0.68, 0.32, 0.62, 0.38}) {
      const double x = liquid.low.x() + share * liquid.size().x();
      const Point low(x, liquid.low.y()), high(x, liquid.high.y());
      bool free = true;
      for (int k = 1; k < 40; ++k) {
        const Point p = low + (high - low) * (k / 40.0);
        free = free && mesh::contains(scene.section.liquid_bounds, p);
        for (const mesh::PlacedSolid& solid : scene.section.solids)
          free = free && !mesh::contains(solid.outline, p);
      }
      if (free && draw_dimension(svg, scene.section,
                                 {low, high, millimetres(liquid.size().y())},
                                 frame, placer, how))
        return;
    }
}

}  // namespace thinspot::viz
