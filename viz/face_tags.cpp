#include "viz/face_tags.hpp"

#include "solver/face_letters.hpp"
#include "viz/face_places.hpp"
#include "viz/panel_labels.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace thinspot::viz {

namespace {

using solver::PartResult;
using solver::SurfacePoint;

constexpr double kRing = 8.5;  ///< radius
/// Where along a face a tag may hang.
const std::vector<double> kAlong{0.5, 0.38, 0.62, 0.26, 0.74, 0.12, 0.88};

TextBox ring_box(Point centre) {
  return box_about(centre, 2 * kRing + 2, 2 * kRing + 2);
}

/// Straight out from the face.
bool place_before(const mesh::Section& section, const Frame& frame,
                  const LabelPlacer& placer,
                  const std::vector<const SurfacePoint*>& feet, Point& foot,
                  Point& centre) {
  const LabelPlacer within(frame.area.grown(-1));
  for (double out = kRing + 5; out < 60; out += 4)
    for (const SurfacePoint* s : feet) {
      foot = frame.page(s->at);
      const Point way(s->normal.x(), -s->normal.y());
      centre = foot + out * way;
      const TextBox box = ring_box(centre);
      if (within.free(box) && placer.free(box) &&
          !on_solid(section, frame, box) &&
          !meets_solid(section, frame, foot + 2 * way, centre))
        return true;
    }
  return false;
}

/// Wherever there is room, the nearer the better.
bool place_anywhere(const Frame& frame, const LabelPlacer& placer,
                    const Point& foot, Point& centre) {
  const TextBox area = frame.area.grown(-kRing - 2);
  double best = 1e9;
  for (double x = area.left; x <= area.right; x += 5)
    for (double y = area.top; y <= area.bottom; y += 5) {
      const Point at(x, y);
      const double far = (at - foot).norm();
      if (far >= best || !placer.free(ring_box(at))) continue;
      best = far;
      centre = at;
    }
  return best < 1e9;
}

}  // namespace

TextBox FaceTag::room() const { return ring_box(centre); }

std::vector<FaceTag> face_tags(const mesh::Section& section,
                               const PartResult& part, const Frame& frame,
                               LabelPlacer& placer) {
  std::vector<FaceTag> tags;
  LabelPlacer others(frame.area);  // room of nothing but tags
  const std::size_t count = std::min(part.faces.size(), kMostTags);
  for (std::size_t f = 0; f < count; ++f) {
    const auto feet = places_on_face(part, f, frame, kAlong, false);
    if (feet.empty()) continue;
    FaceTag tag{solver::face_letter(f)};
    if (!place_before(section, frame, placer, feet, tag.foot, tag.centre)) {
      tag.foot = frame.page(feet.front()->at);
      if (!place_anywhere(frame, placer, tag.foot, tag.centre) &&
          !place_anywhere(frame, others, tag.foot, tag.centre))
        continue;
    }
    placer.block(tag.room());
    others.block(tag.room());
    block_line(placer, tag.foot, tag.centre);
    tags.push_back(std::move(tag));
  }
  return tags;
}

void draw_face_tags(Svg& svg, const std::vector<FaceTag>& tags) {
  for (const FaceTag& tag : tags) {
    const Point way = (tag.centre - tag.foot).normalized();
    svg.line(tag.foot, tag.centre - kRing * way,
             {.stroke = "#000", .width = 0.8});
    svg.circle(tag.foot, 1.6, {.fill = "#000"});
    svg.circle(tag.centre, kRing,
               {.fill = "#fff", .stroke = "#000", .width = 1});
    const double size = tag.letter.size() > 1 ? 10 : 12;
    svg.text(
        tag.centre + Point(0, 0.36 * size), tag.letter,
        {.size = size, .anchor = Anchor::middle, .bold = true, .fill = "#000"});
  }
}

std::string face_key(const PartResult& part) {
  const std::size_t count = std::min(part.faces.size(), kMostTags);
  std::string text;
  for (std::size_t f = 0; f < count; ++f)
    text += fmt::format("{}{} {}", f == 0 ? "" : ", ", solver::face_letter(f),
                        clean_text(part.faces[f].name));
  if (part.faces.size() > count)
    text += fmt::format(" and {} more", part.faces.size() - count);
  return text;
}

}  // namespace thinspot::viz
