#include "viz/part_view.hpp"

#include "viz/burn_marks.hpp"
#include "viz/coating.hpp"
#include "viz/layer_bands.hpp"
#include "viz/metal_look.hpp"
#include "viz/numbers.hpp"
#include "viz/palette.hpp"
#include "viz/panel_labels.hpp"
#include "viz/section_layout.hpp"
#include "viz/surface_marks.hpp"

#include <algorithm>

namespace thinspot::viz {

namespace {

using solver::PartResult;

constexpr double fine = 0.2;

/// Far outside of the frame nothing needs drawing.
bool is_in_sight(const solver::Result& result, const PartResult& part,
                 const Frame& frame) {
  const mesh::Box box =
      mesh::bounding_box(result.section.solids[part.solid].outline);
  const double room = 2 * coating_room / frame.scale;
  return (box.low.array() < frame.model.high.array() + room).all() &&
         (box.high.array() > frame.model.low.array() - room).all();
}

/// Metal from the part's surface out to its coating, in one colour.
void draw_metal(Svg& svg, const solver::Result& result, const PartResult& part,
                const Frame& frame, double factor, const std::string& clip,
                const MetalLook& look, bool hatched) {
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
    const bool plain = stretch.judged || !hatched;
    if (!plain) svg.polygon(metal, {.fill = "#fff", .clip = clip});
    svg.polygon(metal, {.fill = plain ? look.fill : hatch, .clip = clip});
    svg.path(edge, {.stroke = plain ? look.edge : colour::pale_ink,
                    .width = 1.1,
                    .clip = clip});
  }
}

/// The layers as they lie on each other: the uppermost first, those below it
/// over it.
void draw_layers(Svg& svg, const solver::Result& result, const PartResult& part,
                 const Frame& frame, double factor, const std::string& clip) {
  const auto index = static_cast<std::size_t>(&part - result.parts.data());
  PartResult below = part;
  for (std::size_t l = result.layers.size(); l-- > 0;) {
    const std::vector<double> t = thickness_up_to(result, index, l + 1);
    for (std::size_t n = 0; n < t.size(); ++n)
      below.surface[n].thickness = t[n];
    draw_metal(svg, result, below, frame, factor, clip,
               look_of_metal(result.layers[l].metal, l), false);
  }
}

void draw_band(Svg& svg, const solver::Result& result, const PartResult& part,
               const Frame& frame, double factor, const std::string& clip) {
  if (result.layers.empty())
    draw_metal(svg, result, part, frame, factor, clip,
               {colour::coating, colour::coating_edge}, true);
  else
    draw_layers(svg, result, part, frame, factor, clip);
  const mesh::Outline& outline = result.section.solids[part.solid].outline;
  svg.path(outline_path(outline, frame), {.stroke = colour::ink, .clip = clip});
  draw_lacquer(svg, outline, frame, clip, false);
  draw_contacts(svg, result, part, frame, clip);
  draw_burns(svg, result, part, frame, clip);
}

void draw_target(Svg& svg, const solver::Result& result, const PartResult& part,
                 const Frame& frame, double offset, const std::string& clip) {
  PathText wanted;
  for (const Stretch& stretch : stretches(result, part))
    if (stretch.judged)
      wanted.chain(simplified(frame.page(offset_surface(part, stretch, offset)),
                              fine, true),
                   false);
  svg.path(wanted,
           {.stroke = "#fff", .width = 2.6, .opacity = 0.6, .clip = clip});
  svg.path(
      wanted,
      {.stroke = colour::target, .width = 1.5, .dash = "5 3", .clip = clip});
}

}  // namespace

double exaggeration(const solver::Result& result, const Frame& frame) {
  double highest = 0;
  for (const PartResult& part : result.parts)
    highest = std::max(highest, part.thickness.value.max * frame.scale);
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
  const bool round = result.section.cut == mesh::Cut::axisymmetric;
  const std::string clip = svg.clip(round ? right_of_axis(frame) : frame.area);
  const bool with_target = target_is_drawn(result, frame, factor);
  for (const PartResult& part : result.parts) {
    if (!is_in_sight(result, part, frame)) continue;
    draw_band(svg, result, part, frame, factor, clip);
    if (with_target)
      draw_target(svg, result, part, frame,
                  *result.used.target.thickness * factor, clip);
  }
}

void block_coating(LabelPlacer& placer, const solver::Result& result,
                   const Frame& frame, double factor) {
  for (const PartResult& part : result.parts) {
    const double highest = drawn_thickness_limit(part);
    for (const Stretch& stretch : stretches(result, part)) {
      const auto metal = frame.page(offset_surface(part, stretch, 0));
      const auto outer =
          frame.page(coating_surface(part, stretch, factor, highest));
      Point before(1e9, 1e9);
      for (std::size_t k = 0; k < outer.size(); ++k) {
        if ((outer[k] - before).norm() < 4) continue;
        before = outer[k];
        if (!frame.area.holds(metal[k])) continue;
        const double height = (outer[k] - metal[k]).norm();
        const int rungs = 1 + static_cast<int>(height / 5);
        for (int r = 0; r <= rungs; ++r)
          placer.block(
              box_about(metal[k] + (outer[k] - metal[k]) *
                                       (static_cast<double>(r) / rungs),
                        5, 5));
      }
    }
  }
}

}  // namespace thinspot::viz
