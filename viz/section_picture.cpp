#include "viz/section_picture.hpp"

#include "mesh/digits.hpp"
#include "viz/part_labels.hpp"
#include "viz/part_view.hpp"
#include "viz/picture_head.hpp"
#include "viz/section_field.hpp"
#include "viz/section_legend.hpp"
#include "viz/section_sheet.hpp"

#include <fmt/format.h>

namespace thinspot::viz {

namespace {

/// Where on the page a panel lies and what it shows [mm]: left, top, right,
/// bottom, then x and y of its lower left corner and page units a millimetre.
std::string frame_numbers(const Frame& f) {
  return fmt::format("{:.2f} {:.2f} {:.2f} {:.2f} {:.4f} {:.4f} {:.5f}",
                     f.area.left, f.area.top, f.area.right, f.area.bottom,
                     1e3 * f.model.low.x(), 1e3 * f.model.low.y(),
                     1e-3 * f.scale);
}

/// For those who cannot see the picture.
std::string description(const solver::Result& result) {
  std::string text = kind_of_section(result.section.cut) +
                     ", with the solids, the current's way through the liquid "
                     "and the coating on the part.";
  for (const Mark& mark : marks_of(result))
    text += fmt::format(" {} {}: {} \u00B5m, {}.",
                        mark.thin ? "Thin spot" : "Heavy spot", mark.label,
                        digits(mark.spot.thickness * 1e6),
                        place_text(result, mark));
  return text;
}

}  // namespace

std::string section_picture(const solver::Result& result) {
  // 1. What there is to show, and where it goes.
  const Scene scene = scene_of(result);
  const SectionField field = section_field(result);
  const std::vector<Mark> marks = marks_of(result);
  Svg svg("section", page_width);
  SectionSheet sheet(
      svg, scene, draw_head(svg, result, kind_of_section(result.section.cut)));
  const Frame& tank = sheet.layout().tank;
  const Frame& close = sheet.layout().part_panel();
  const double factor = exaggeration(result, close);

  // 2. Tank and part. On a rack, copies outside of the close-up are seen in
  // the tank alone.
  const bool both = sheet.layout().close_up && result.parts.size() > 1;
  sheet.draw_panels(&field);
  draw_coating(svg, result, close, factor);
  block_coating(sheet.labels(), result, close, factor);
  if (both) draw_coating(svg, result, tank, factor);

  // 3. Words and signs.
  sheet.block_close_up();
  const std::size_t nameless = sheet.draw_names();
  draw_marks(svg, result, marks, close, factor, std::nullopt, sheet.labels());
  draw_face_names(svg, result, close, factor, sheet.labels());
  if (both)
    draw_marks(svg, result, marks, tank, factor, close.model, sheet.labels());
  sheet.draw_labels(&field);
  const double bottom =
      draw_section_legend(svg,
                          {result, field, marks, factor, close.scale,
                           target_is_drawn(result, close, factor), nameless},
                          sheet.layout().bottom + 10);
  svg.data("frames", both || &tank != &close
                         ? frame_numbers(close) + ";" + frame_numbers(tank)
                         : frame_numbers(tank));
  return svg.finish(bottom + 8, picture_title(result.used),
                    description(result));
}

}  // namespace thinspot::viz
