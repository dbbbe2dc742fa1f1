#pragma once

#include "viz/frame.hpp"
#include "viz/scene.hpp"

#include <optional>

namespace thinspot::viz {

/// Where the pieces of the section picture lie on the page.
struct SectionLayout {
  Frame tank;
  std::optional<Frame> close_up;  ///< where the part is small in the tank
  double bottom = 0;              ///< of both, with their axes

  /// The panel that shows coating and spots.
  const Frame& part_panel() const { return close_up ? *close_up : tank; }
};

inline constexpr double page_width = 540;
inline constexpr double axis_room = 36;   ///< left of a panel, for numbers
inline constexpr double axis_below = 26;  ///< below a panel
/// Thickest that the coating is drawn.
inline constexpr double coating_room = 28;

/// What the tank panel shows [m]: the tank, both halves of an axisymmetric
/// one, cropped well above the liquid.
mesh::Box tank_box(const mesh::Section& section);

/// Box of a solid as the section sees it: right of the axis where there is
/// one [m].
mesh::Box solid_box(const mesh::Section& section, std::size_t solid);

/// @param top  where the panels may begin.
SectionLayout section_layout(const Scene& scene, double top);

}  // namespace thinspot::viz
