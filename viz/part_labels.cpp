#include "viz/part_labels.hpp"

#include "viz/coating.hpp"
#include "viz/face_places.hpp"
#include "viz/palette.hpp"
#include "viz/panel_labels.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::viz {

namespace {

using solver::PartResult;
using solver::SurfacePoint;

const SurfacePoint& nearest_point(const PartResult& part, const Point& p) {
  return *std::min_element(part.surface.begin(), part.surface.end(),
                           [&](const SurfacePoint& a, const SurfacePoint& b) {
                             return (a.at - p).squaredNorm() <
                                    (b.at - p).squaredNorm();
                           });
}

/// A way on the page from a way in the section.
Point on_page(const Point& way) { return {way.x(), -way.y()}; }

/// One face's name and the places where it may go.
struct FaceName {
  std::string text;
  TextStyle style;
  std::vector<const SurfacePoint*> places;
};

/// Beside the coating, or at the end of a line where that is taken.
/// @param way  +1 over the face, -1 from behind it, across the metal
bool place_name(Svg& svg, const mesh::Section& section, const FaceName& name,
                const Frame& frame, double lift, double highest, int way,
                LabelPlacer& placer) {
  const LabelPlacer within(frame.area.grown(-2));
  const double width = text_width(name.text, name.style);
  for (const SurfacePoint* s : name.places)
    for (double out = 5; out < 90; out += 4) {
      const Point to = way * on_page(s->normal);
      const double height = lift * std::min(s->thickness, highest);
      const Point surface = frame.page(s->at);
      const Point edge = way > 0 ? Point(surface + height * to) : surface;
      const Point centre = edge + to * (out + std::abs(to.x()) * width / 2 +
                                        std::abs(to.y()) * 7);
      const TextBox box = box_about(centre, width + 4, 15);
      const Point end = edge + to * (out - 1);
      if (!within.free(box) || on_solid(section, frame, box)) continue;
      if (way > 0 && meets_solid(section, frame, edge, end)) break;
      if (!placer.take(box)) continue;
      if (out > 14 || way < 0) {
        svg.line(edge, end, {.stroke = colour::pale_ink, .width = 0.8});
        svg.circle(edge, 1.8, {.fill = colour::pale_ink});
        block_line(placer, edge, end);
      }
      svg.text(centre + Point(0, 4), name.text, name.style);
      return true;
    }
  return false;
}

/// Where a mark's sign may go: out from `foot` along `way` and aside.
struct MarkRoom {
  Point foot, way;
  bool over_metal = false;  ///< its line may cross the part
};

/// Sign and number together, moved out and aside until they are free.
bool place_mark(Svg& svg, const mesh::Section& section, const Mark& mark,
                const Frame& frame, const MarkRoom& room, LabelPlacer& placer) {
  const LabelPlacer within(frame.area.grown(-2));
  const TextStyle style = mark_text(mark);
  const double width = sign_size + 3 + text_width(mark.label, style) + 2;
  // Its number on the far side of the sign.
  const double side = room.way.x() < -0.3 ? -1 : 1;
  for (double out = 7; out < 90; out += 3)
    for (const double aside : {0.0, -10.0, 10.0, -20.0, 20.0, -32.0, 32.0}) {
      const Point sign = room.foot + out * room.way +
                         aside * Point(-room.way.y(), room.way.x());
      const Point centre = sign + Point(side * (width - sign_size) / 2, 0);
      const TextBox box = box_about(centre, width + 2, 13);
      if (!within.free(box) || !placer.free(box) ||
          on_solid(section, frame, box))
        continue;
      if (!room.over_metal && meets_solid(section, frame, room.foot, sign))
        continue;
      placer.block(box);
      if (out > 7 || aside != 0)
        svg.line(room.foot, sign, {.stroke = style.fill, .width = 0.8});
      draw_sign(svg, mark, sign, room.foot);
      TextStyle number = style;
      number.anchor = side < 0 ? Anchor::end : Anchor::start;
      number.halo = true;
      svg.text(sign + Point(side * (sign_size / 2 + 3), 4.2), mark.label,
               number);
      return true;
    }
  return false;
}

/// Over the coating; in a narrow recess from behind, across the metal.
void draw_mark(Svg& svg, const solver::Result& result, const Mark& mark,
               const Frame& frame, double factor, LabelPlacer& placer) {
  const PartResult& part = result.parts[mark.part];
  const SurfacePoint& s = nearest_point(part, mark.spot.at);
  const double highest = drawn_thickness_limit(part);
  const Point way = on_page(s.normal);
  const Point foot =
      frame.page(s.at + factor * std::min(s.thickness, highest) * s.normal);
  for (const MarkRoom& room :
       {MarkRoom{foot, way, false}, MarkRoom{frame.page(s.at), -way, true},
        MarkRoom{foot, way, true}})
    if (place_mark(svg, result.section, mark, frame, room, placer)) return;
  draw_sign(svg, mark, foot + 7 * way, foot);
}

}  // namespace

void draw_marks(Svg& svg, const solver::Result& result,
                const std::vector<Mark>& marks, const Frame& frame,
                double factor, const std::optional<mesh::Box>& elsewhere,
                LabelPlacer& placer) {
  for (const Mark& mark : marks) {
    if (result.parts[mark.part].surface.empty() ||
        !inside(frame.model, mark.spot.at) ||
        (elsewhere && inside(*elsewhere, mark.spot.at)))
      continue;
    draw_mark(svg, result, mark, frame, factor, placer);
  }
}

void draw_face_names(Svg& svg, const solver::Result& result, const Frame& frame,
                     double factor, LabelPlacer& placer) {
  const PartResult& part = shown_part(result);
  FaceName name;
  name.style = {.size = 11.5,
                .anchor = Anchor::middle,
                .italic = true,
                .fill = colour::ink,
                .halo = true};
  const double highest = drawn_thickness_limit(part);
  for (std::size_t f = 0; f < part.faces.size(); ++f) {
    name.text = clean_text(part.faces[f].name);
    name.places = places_on_face(part, f, frame,
                                 {0.35, 0.65, 0.2, 0.8, 0.05, 0.95}, true);
    const double lift = factor * frame.scale;
    for (const int way : {1, -1})
      if (place_name(svg, result.section, name, frame, lift, highest, way,
                     placer))
        break;
  }
}

}  // namespace thinspot::viz
