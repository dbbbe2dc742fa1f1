#include "viz/section_layout.hpp"

#include "viz/marks.hpp"

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

/// A part that already fills half of the tank needs no close-up.
bool is_small(const Point& part, const Point& tank) {
  return std::max(part.x() / tank.x(), part.y() / tank.y()) < 0.5;
}

}  // namespace

mesh::Box tank_box(const mesh::Section& section) {
  mesh::Box box = mesh::bounding_box(section.liquid_bounds);
  if (section.cut == mesh::Cut::axisymmetric) box.low.x() = -box.high.x();
  if (section.cut == mesh::Cut::plan) return box;
  const double level = box.high.y();
  const double depth = level - box.low.y();
  box.high.y() = std::clamp(section.tank.height, level + 0.04 * depth,
                            level + 0.2 * depth);
  return box;
}

mesh::Box solid_box(const mesh::Section& section, std::size_t solid) {
  mesh::Box box = mesh::bounding_box(section.solids[solid].outline);
  if (section.cut == mesh::Cut::axisymmetric)
    box.low.x() = std::max(box.low.x(), 0.0);
  return box;
}

SectionLayout section_layout(const solver::Result& result, double top) {
  const mesh::Box tank = tank_box(result.section);
  const mesh::Box part = solid_box(result.section, shown_part(result).solid);
  const double left = margin + axis_room;
  SectionLayout layout;
  if (!is_small(part.size(), tank.size())) {
    layout.tank = frame_at(left, top, tank, fit(tank.size(), whole_page));
    layout.bottom = layout.tank.area.bottom + axis_below;
    return layout;
  }
  // Side by side, unless one above the other shows much more.
  const double gain = fit(tank.size(), tank_above) /
                      fit(tank.size(), tank_beside) *
                      fit_part(part.size(), close_up_below) /
                      fit_part(part.size(), close_up_beside);
  if (gain < 3) {
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
