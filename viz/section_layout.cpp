#include "viz/section_layout.hpp"

#include "viz/tank_drawing.hpp"

#include <algorithm>

namespace thinspot::viz {

namespace {

constexpr double margin = 10;
constexpr double between = 12;
/// Room around the part in its close-up: coating, signs, names.
constexpr double around = coating_room + 30;

struct Room {
  double width = 0, height = 0;
};

constexpr Room whole_page{page_width - 2 * margin - axis_room, 400};
constexpr Room tank_beside{232, 350};
constexpr Room close_up_beside{
    page_width - 2 * margin - between - 2 * axis_room - tank_beside.width, 350};
constexpr Room tank_above{whole_page.width, 300};
constexpr Room close_up_below{whole_page.width, 300};

double fit(const Point& size, const Room& room) {
  return std::min(room.width / size.x(), room.height / size.y());
}

double fit_part(const Point& size, const Room& room) {
  return fit(size, {room.width - 2 * around, room.height - 2 * around});
}

/// The part in the middle of a panel that is no larger than it need be.
Frame close_up(const mesh::Box& part, double left, double top, const Room& room,
               double wanted_height) {
  const double scale = fit_part(part.size(), room);
  const Point needed = part.size() * scale + Point::Constant(2 * around);
  const Point size(room.width, std::clamp(std::max(needed.y(), wanted_height),
                                          0.0, room.height));
  const Point half = 0.5 * size / scale;
  return frame_at(left, top, {part.centre() - half, part.centre() + half},
                  scale);
}

/// Side by side, unless one above the other shows much more, or there is much
/// to see in the tank.
bool stands_beside(const Point& part, const Point& tank, bool rack) {
  const double gain = fit(tank, tank_above) / fit(tank, tank_beside) *
                      fit_part(part, close_up_below) /
                      fit_part(part, close_up_beside);
  return gain < 3 && !rack;
}

/// A part that already fills half of the tank needs no close-up, nor one that
/// would hardly be seen any larger than on a whole page.
bool is_small(const Point& part, const Point& tank, bool beside) {
  constexpr double worth_it = 1.35;
  const double larger =
      fit_part(part, beside ? close_up_beside : close_up_below) /
      fit(tank, whole_page);
  return std::max(part.x() / tank.x(), part.y() / tank.y()) < 0.5 &&
         larger > worth_it;
}

}  // namespace

mesh::Box tank_box(const mesh::Section& section) {
  mesh::Box box = mesh::bounding_box(section.liquid_bounds);
  if (section.cut == mesh::Cut::plan) return box;
  const mesh::Outline inside = tank_inside(section);
  const double level = box.high.y();
  const double depth = level - box.low.y();
  box.high.y() = std::clamp(mesh::bounding_box(inside).high.y(),
                            level + 0.04 * depth, level + 0.2 * depth);
  // What stands out of the liquid is seen as far as that is of use.
  for (const mesh::PlacedSolid& solid : section.solids) {
    const double top = mesh::bounding_box(solid.outline).high.y();
    if (top > level)
      box.high.y() = std::max(
          box.high.y(), std::min(top + 0.04 * depth, level + 0.7 * depth));
  }
  // Walls may lean outwards above the liquid.
  for (const mesh::Loop& loop : inside.loops)
    for (const mesh::Curve& c : loop)
      for (int k = 0; k <= 16; ++k) {
        const Point p = mesh::point_at(c, k / 16.0);
        if (p.y() > box.high.y()) continue;
        box.low.x() = std::min(box.low.x(), p.x());
        box.high.x() = std::max(box.high.x(), p.x());
      }
  if (section.cut == mesh::Cut::axisymmetric) box.low.x() = -box.high.x();
  return box;
}

mesh::Box solid_box(const mesh::Section& section, std::size_t solid) {
  mesh::Box box = mesh::bounding_box(section.solids[solid].outline);
  if (section.cut == mesh::Cut::axisymmetric)
    box.low.x() = std::max(box.low.x(), 0.0);
  return box;
}

SectionLayout section_layout(const Scene& scene, double top) {
  const mesh::Box tank = tank_box(scene.section);
  const mesh::Box part = solid_box(scene.section, scene.shown);
  const double left = margin + axis_room;
  SectionLayout layout;
  const bool beside =
      stands_beside(part.size(), tank.size(), is_rack(scene.section));
  if (!is_small(part.size(), tank.size(), beside)) {
    layout.tank = frame_at(left, top, tank, fit(tank.size(), whole_page));
    layout.bottom = layout.tank.area.bottom + axis_below;
    return layout;
  }
  if (beside) {
    layout.tank = frame_at(left, top, tank, fit(tank.size(), tank_beside));
    const TextBox& area = layout.tank.area;
    layout.close_up =
        close_up(part, page_width - margin - close_up_beside.width, top,
                 close_up_beside, area.height());
  } else {
    layout.tank = frame_at(left, top, tank, fit(tank.size(), tank_above));
    layout.close_up =
        close_up(part, left, layout.tank.area.bottom + axis_below + 26,
                 close_up_below, 0);
  }
  layout.bottom =
      std::max(layout.tank.area.bottom, layout.close_up->area.bottom) +
      axis_below;
  return layout;
}

}  // namespace thinspot::viz
