#pragma once

#include "viz/label_placer.hpp"
#include "viz/scene.hpp"
#include "viz/section_field.hpp"
#include "viz/section_layout.hpp"
#include "viz/solid_names.hpp"
#include "viz/svg.hpp"

namespace thinspot::viz {

/// "The tank cut upright, seen from the side".
std::string kind_of_section(mesh::Cut cut);

/// The section on its page, with a field or without: panels, names, axes. What
/// belongs over the panels and under the names is drawn between the calls.
class SectionSheet {
 public:
  /// @param head  where the heading ends on the page.
  SectionSheet(Svg& svg, const Scene& scene, double head);

  const SectionLayout& layout() const { return layout_; }
  const SolidNames& names() const { return names_; }
  LabelPlacer& labels() { return labels_; }

  /// 1. The tank and the part's close-up. @param field  nullptr: none.
  void draw_panels(const SectionField* field);
  /// Keeps labels of the tank off what its close-up shows.
  void block_close_up();
  /// 2. Names of the solids. @returns how many found no room.
  std::size_t draw_names();
  /// 3. Numbers along the axes, level, voltages, the close-up's heading.
  void draw_labels(const SectionField* field);

 private:
  Svg& svg_;
  Scene scene_;
  SolidNames names_;
  SectionLayout layout_;
  LabelPlacer labels_;
};

}  // namespace thinspot::viz
