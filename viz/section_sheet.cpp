#include "viz/section_sheet.hpp"

#include "mesh/digits.hpp"
#include "viz/palette.hpp"
#include "viz/panel.hpp"
#include "viz/panel_labels.hpp"
#include "viz/tank_drawing.hpp"

#include <fmt/format.h>

namespace thinspot::viz {

namespace {

/// Names above the tank keep off a close-up beside it.
SolidNames names_over(const Scene& scene) {
  const SectionLayout first = section_layout(scene, 0);
  const bool beside =
      first.close_up && first.close_up->area.top < first.tank.area.bottom;
  const double right =
      beside ? first.close_up->area.left - axis_room + 16 : page_width - 10;
  return {scene.section, first.tank, 10, right};
}

/// What the close-up shows, as a box on the tank's panel.
TextBox shown_box(const SectionLayout& layout) {
  const Point low = layout.tank.page(layout.close_up->model.low);
  const Point high = layout.tank.page(layout.close_up->model.high);
  return {low.x(), high.y(), high.x(), low.y()};
}

}  // namespace

std::string kind_of_section(mesh::Cut cut) {
  switch (cut) {
    case mesh::Cut::side: return "The tank cut upright, seen from the side";
    case mesh::Cut::plan: return "The tank cut level, seen from above";
    case mesh::Cut::axisymmetric: return "The tank cut through its axis";
  }
  return "The tank";
}

SectionSheet::SectionSheet(Svg& svg, const Scene& scene, double head)
    : svg_(svg),
      scene_(scene),
      names_(names_over(scene)),
      layout_(section_layout(scene, head + names_.height() + 14)),
      labels_({0, 0, page_width, layout_.bottom}) {}

void SectionSheet::draw_panels(const SectionField* field) {
  names_.block_lines(labels_, layout_.tank);
  draw_panel(svg_, scene_, field, layout_.tank, wall_width);
  for (const auto& solid : scene_.section.solids)
    block_outline(labels_, solid.outline, layout_.tank, scene_.round());
  block_outline(labels_, tank_inside(scene_.section), layout_.tank);
  if (!layout_.close_up) return;
  draw_panel(svg_, scene_, field, *layout_.close_up, 0);
  for (const auto& solid : scene_.section.solids)
    block_outline(labels_, solid.outline, *layout_.close_up, scene_.round());
}

void SectionSheet::block_close_up() {
  if (layout_.close_up) labels_.block(shown_box(layout_));
}

std::size_t SectionSheet::draw_names() {
  names_.draw(svg_, layout_.tank);
  std::vector<Frame> frames{layout_.tank};
  if (layout_.close_up) frames.push_back(*layout_.close_up);
  return names_.draw_inside(svg_, scene_.section, frames, labels_);
}

void SectionSheet::draw_labels(const SectionField* field) {
  if (layout_.close_up) {
    const Frame& close = *layout_.close_up;
    svg_.rect(shown_box(layout_),
              {.stroke = colour::ink, .width = 1, .dash = "3 2"});
    svg_.rect(close.area, {.stroke = colour::ink, .width = 1});
    svg_.text({close.area.right, close.area.top - 8},
              fmt::format("Close-up, {} times larger",
                          digits(close.scale / layout_.tank.scale, 2)),
              {.size = 12, .anchor = Anchor::end});
    draw_axes(svg_, close, scene_.round(), labels_);
  }
  draw_axes(svg_, layout_.tank, scene_.round(), labels_);
  if (scene_.round()) draw_axis_name(svg_, layout_.tank, labels_);
  label_level(svg_, scene_.section, layout_.tank, labels_);
  if (field != nullptr)
    label_equipotentials(svg_, *field, layout_.tank, labels_);
}

}  // namespace thinspot::viz
