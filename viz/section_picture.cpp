#include "viz/section_picture.hpp"

#include "viz/numbers.hpp"
#include "viz/palette.hpp"
#include "viz/panel.hpp"
#include "viz/part_view.hpp"
#include "viz/picture_head.hpp"
#include "viz/section_field.hpp"
#include "viz/section_layout.hpp"
#include "viz/section_legend.hpp"
#include "viz/solid_names.hpp"

#include <fmt/format.h>

namespace thinspot::viz {

namespace {

std::string kind_of_section(mesh::Cut cut) {
  switch (cut) {
    case mesh::Cut::side: return "The tank cut upright, seen from the side";
    case mesh::Cut::plan: return "The tank cut level, seen from above";
    case mesh::Cut::axisymmetric: return "The tank cut through its axis";
  }
  return "The tank";
}

/// For those who cannot see the picture.
std::string description(const solver::Result& result) {
  const solver::PartResult& part = shown_part(result);
  std::string text = kind_of_section(result.section.cut) +
                     ", with the solids, the current's way through the liquid "
                     "and the coating on the part.";
  for (const Mark& mark : marks_of(part))
    text += fmt::format(
        " {} {}: {} \u00B5m, {}.", mark.thin ? "Thin spot" : "Heavy spot",
        mark.label, significant(mark.spot.thickness * 1e6), mark.spot.where);
  return text;
}

void draw_axis_name(Svg& svg, const Frame& frame, LabelPlacer& placer) {
  const TextStyle style{.size = 11, .fill = colour::pale_ink, .halo = true};
  const Point axis = frame.page(Point(0, 0));
  for (double y = frame.area.bottom - 6; y > frame.area.top; y -= 10)
    for (const double shift : {4.0, -4.0 - text_width("axis", style)}) {
      const Point at(axis.x() + shift, y);
      if (!placer.take(text_box(at, "axis", style))) continue;
      svg.text(at, "axis", style);
      return;
    }
}

/// The tank's own labels: axes, level, voltages.
void label_tank(Svg& svg, const solver::Result& result,
                const SectionField& field, const SectionLayout& layout,
                LabelPlacer& placer) {
  const Frame& frame = layout.tank;
  for (const auto& solid : result.section.solids)
    block_outline(placer, solid.outline, frame);
  const bool round = result.section.cut == mesh::Cut::axisymmetric;
  draw_axes(svg, frame, round, placer);
  if (round) draw_axis_name(svg, frame, placer);
  if (result.section.cut != mesh::Cut::plan)
    label_level(svg, result.section, frame, placer);
  label_equipotentials(svg, field, frame, placer);
}

/// What part of the tank the close-up shows, and its own heading and axes.
void frame_close_up(Svg& svg, const SectionLayout& layout, bool round,
                    LabelPlacer& placer) {
  const Frame& close = *layout.close_up;
  const Point low = layout.tank.page(close.model.low);
  const Point high = layout.tank.page(close.model.high);
  const Paint line{.stroke = colour::ink, .width = 1, .dash = "3 2"};
  svg.rect({low.x(), high.y(), high.x(), low.y()}, line);
  svg.rect(close.area, {.stroke = colour::ink, .width = 1});
  const TextStyle heading{.size = 12, .anchor = Anchor::end};
  svg.text({close.area.right, close.area.top - 8},
           fmt::format("Close-up, {} times larger",
                       significant(close.scale / layout.tank.scale, 2)),
           heading);
  draw_axes(svg, close, round, placer);
}

}  // namespace

std::string section_picture(const solver::Result& result) {
  // 1. What there is to show.
  const SectionField field = section_field(result);
  const solver::PartResult& part = shown_part(result);
  const std::vector<Mark> marks = marks_of(part);
  const bool round = result.section.cut == mesh::Cut::axisymmetric;

  // 2. Where it goes: names above the tank need the tank's place first.
  Svg svg("section", page_width);
  const double head =
      draw_head(svg, result, kind_of_section(result.section.cut));
  const SectionLayout first = section_layout(result, 0);
  const bool beside =
      first.close_up && first.close_up->area.top < first.tank.area.bottom;
  const double names_right =
      beside ? first.close_up->area.left - axis_room + 16 : page_width - 10;
  const SolidNames names(result.section, first.tank, 10, names_right);
  const SectionLayout layout =
      section_layout(result, head + names.height() + 14);
  const Frame& close = layout.part_panel();
  const double factor = exaggeration(part, close);
  const TextBox page{0, 0, page_width, layout.bottom};

  // 3. The tank and the part, in its close-up where it has one. Labels of
  // both share what room there is on the page.
  LabelPlacer labels(page);
  names.block_lines(labels, layout.tank);
  draw_panel(svg, result, field, layout.tank, wall_width);
  if (layout.close_up) {
    draw_panel(svg, result, field, close, 0);
    const Point low = layout.tank.page(close.model.low);
    const Point high = layout.tank.page(close.model.high);
    labels.block({low.x(), high.y(), high.x(), low.y()});
  }
  draw_coating(svg, result, close, factor);
  block_coating(labels, result, close, factor);
  block_outline(labels, result.section.solids[part.solid].outline, close);

  // 4. Words and signs.
  names.draw(svg, layout.tank);
  draw_marks(svg, part, marks, close, factor, labels);
  if (layout.close_up) {
    draw_face_names(svg, part, close, factor, labels);
    frame_close_up(svg, layout, round, labels);
  }
  label_tank(svg, result, field, layout, labels);
  const double bottom = draw_section_legend(
      svg,
      {result, field, marks, factor, close.scale,
       target_is_drawn(result, close, factor), names.left_out()},
      layout.bottom + 10);
  return svg.finish(bottom + 8, picture_title(result), description(result));
}

}  // namespace thinspot::viz
