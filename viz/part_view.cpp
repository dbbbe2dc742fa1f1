#include "viz/part_view.hpp"

#include "viz/coating.hpp"
#include "viz/numbers.hpp"
#include "viz/palette.hpp"
#include "viz/section_layout.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace thinspot::viz {

namespace {

using solver::PartResult;
using solver::SurfacePoint;

constexpr double fine = 0.2;

const SurfacePoint& nearest_point(const PartResult& part, const Point& p) {
  return *std::min_element(part.surface.begin(), part.surface.end(),
                           [&](const SurfacePoint& a, const SurfacePoint& b) {
                             return (a.at - p).squaredNorm() <
                                    (b.at - p).squaredNorm();
                           });
}

/// A way on the page from a way in the section.
Point on_page(const Point& way) { return {way.x(), -way.y()}; }

TextBox about(Point centre, double width, double height) {
  return {centre.x() - width / 2, centre.y() - height / 2,
          centre.x() + width / 2, centre.y() + height / 2};
}

}  // namespace

double exaggeration(const PartResult& part, const Frame& frame) {
  const double highest = part.thickness.value.max * frame.scale;
  // What would need more is too thin to be seen on any part.
  constexpr double most = 1e5;
  return highest > 0 ? std::min(nice_below(coating_room / highest), most) : 1;
}

bool target_is_drawn(const solver::Result& result, const Frame& frame,
                     double factor) {
  const auto& target = result.used.target.thickness;
  return target && *target * factor * frame.scale < 1.5 * coating_room;
}

void draw_coating(Svg& svg, const solver::Result& result, const Frame& frame,
                  double factor) {
  const PartResult& part = shown_part(result);
  const bool round = result.section.cut == mesh::Cut::axisymmetric;
  const std::string clip = svg.clip(round ? right_of_axis(frame) : frame.area);
  const std::string hatch = svg.hatch(colour::not_judged, 4);
  const double highest = drawn_thickness_limit(part);
  for (const Stretch& stretch : stretches(result, part)) {
    std::vector<Point> metal =
        simplified(frame.page(offset_surface(part, stretch, 0)), fine, true);
    std::vector<Point> outer =
        simplified(frame.page(coating_surface(part, stretch, factor, highest)),
                   fine, true);
    PathText edge;
    edge.chain(outer, false);
    std::reverse(outer.begin(), outer.end());
    metal.insert(metal.end(), outer.begin(), outer.end());
    if (!stretch.judged) svg.polygon(metal, {.fill = "#fff", .clip = clip});
    svg.polygon(metal, {.fill = stretch.judged ? colour::coating : hatch,
                        .clip = clip});
    svg.path(edge, {.stroke = stretch.judged ? colour::coating_edge
                                             : colour::pale_ink,
                    .width = 1.1,
                    .clip = clip});
  }
  svg.path(outline_path(result.section.solids[part.solid].outline, frame),
           {.stroke = colour::ink, .clip = clip});
  if (!target_is_drawn(result, frame, factor)) return;
  const double target = *result.used.target.thickness;
  PathText wanted;
  for (const Stretch& stretch : stretches(result, part))
    if (stretch.judged)
      wanted.chain(
          simplified(frame.page(offset_surface(part, stretch, target * factor)),
                     fine, true),
          false);
  svg.path(wanted,
           {.stroke = "#fff", .width = 2.6, .opacity = 0.6, .clip = clip});
  svg.path(
      wanted,
      {.stroke = colour::target, .width = 1.5, .dash = "5 3", .clip = clip});
}

void block_coating(LabelPlacer& placer, const solver::Result& result,
                   const Frame& frame, double factor) {
  const PartResult& part = shown_part(result);
  const double highest = drawn_thickness_limit(part);
  for (const Stretch& stretch : stretches(result, part)) {
    const auto metal = frame.page(offset_surface(part, stretch, 0));
    const auto outer =
        frame.page(coating_surface(part, stretch, factor, highest));
    Point before(1e9, 1e9);
    for (std::size_t k = 0; k < outer.size(); ++k) {
      if ((outer[k] - before).norm() < 4) continue;
      before = outer[k];
      const int rungs = 1 + static_cast<int>((outer[k] - metal[k]).norm() / 5);
      for (int r = 0; r <= rungs; ++r)
        placer.block(about(
            metal[k] + (outer[k] - metal[k]) * (static_cast<double>(r) / rungs),
            5, 5));
    }
  }
}

void draw_marks(Svg& svg, const PartResult& part,
                const std::vector<Mark>& marks, const Frame& frame,
                double factor, LabelPlacer& placer) {
  if (part.surface.empty()) return;
  const double highest = drawn_thickness_limit(part);
  const LabelPlacer within(frame.area.grown(-2));
  for (const Mark& mark : marks) {
    if (!inside(frame.model, mark.spot.at)) continue;
    const SurfacePoint& s = nearest_point(part, mark.spot.at);
    const Point way = on_page(s.normal);
    const Point foot =
        frame.page(s.at + factor * std::min(s.thickness, highest) * s.normal);
    const TextStyle style = mark_text(mark);
    const double text = text_width(mark.label, style);
    const double width = sign_size + 3 + text + 2;
    bool done = false;
    // Sign and number together, moved out and aside until they are free.
    for (double out = 7; out < 60 && !done; out += 3)
      for (const double aside : {0.0, -10.0, 10.0, -20.0, 20.0}) {
        const Point sign = foot + out * way + aside * Point(-way.y(), way.x());
        // Its number on the far side of the sign.
        const double side = way.x() < -0.3 ? -1 : 1;
        const Point centre = sign + Point(side * (width - sign_size) / 2, 0);
        const TextBox box = about(centre, width + 2, 13);
        if (!within.free(box) || !placer.take(box)) continue;
        if (out > 7 || aside != 0)
          svg.line(foot, sign, {.stroke = style.fill, .width = 0.8});
        draw_sign(svg, mark, sign, foot);
        TextStyle number = style;
        number.anchor = side < 0 ? Anchor::end : Anchor::start;
        number.halo = true;
        svg.text(sign + Point(side * (sign_size / 2 + 3), 4.2), mark.label,
                 number);
        done = true;
        break;
      }
    if (!done) draw_sign(svg, mark, foot + 7 * way, foot);
  }
}

void draw_face_names(Svg& svg, const PartResult& part, const Frame& frame,
                     double factor, LabelPlacer& placer) {
  const TextStyle style{.size = 11.5,
                        .anchor = Anchor::middle,
                        .italic = true,
                        .fill = colour::ink,
                        .halo = true};
  const double highest = drawn_thickness_limit(part);
  const LabelPlacer within(frame.area.grown(-2));
  for (std::size_t f = 0; f < part.faces.size(); ++f) {
    const std::string text = clean_text(part.faces[f].name);
    const double width = text_width(text, style);
    std::vector<const SurfacePoint*> points;
    for (const SurfacePoint& s : part.surface)
      if (static_cast<std::size_t>(s.face) == f && s.wetted &&
          inside(frame.model, s.at))
        points.push_back(&s);
    if (points.empty()) continue;
    // The middle of the face first, then along it.
    Point middle = Point::Zero();
    for (const SurfacePoint* p : points)
      middle += p->at / static_cast<double>(points.size());
    std::vector<const SurfacePoint*> places{*std::min_element(
        points.begin(), points.end(), [&](const auto* a, const auto* b) {
          return (a->at - middle).squaredNorm() <
                 (b->at - middle).squaredNorm();
        })};
    for (const double share : {0.35, 0.65, 0.2, 0.8})
      places.push_back(points[static_cast<std::size_t>(
          share * static_cast<double>(points.size() - 1))]);
    bool done = false;
    for (const SurfacePoint* place : places)
      for (double out = 5; out < 40 && !done; out += 4) {
        const SurfacePoint& s = *place;
        const Point way = on_page(s.normal);
        const Point edge = frame.page(
            s.at + factor * std::min(s.thickness, highest) * s.normal);
        const Point centre = edge + way * (out + std::abs(way.x()) * width / 2 +
                                           std::abs(way.y()) * 7);
        const TextBox box = about(centre, width + 4, 15);
        if (!within.free(box) || !placer.take(box)) continue;
        svg.text(centre + Point(0, 4), text, style);
        done = true;
      }
  }
}

}  // namespace thinspot::viz
