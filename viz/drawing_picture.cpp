#include "viz/drawing_picture.hpp"

#include "viz/dimensions.hpp"
#include "viz/legend_column.hpp"
#include "viz/palette.hpp"
#include "viz/picture_head.hpp"
#include "viz/section_sheet.hpp"
#include "viz/solid_legend.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::viz {

namespace {

/// For those who cannot see the picture.
std::string description(const Scene& scene) {
  std::string text = kind_of_section(scene.section.cut) + ", with its solids:";
  for (const mesh::PlacedSolid& solid : scene.section.solids)
    text += " " + name_with_role(solid.spec) + ",";
  text.back() = '.';
  return text;
}

double draw_legend(Svg& svg, const Scene& scene, std::size_t nameless,
                   double top) {
  const double width = page_width / 2 - 18;
  LegendColumn left(svg, 12, top, width);
  solid_entries(svg, left, scene);
  LegendColumn right(svg, page_width / 2 + 6, top, width);
  right.entry(
      [&](Point c) {
        svg.line(c - Point(12, 0), c + Point(12, 0),
                 {.stroke = colour::ink, .width = 0.9});
        for (const double side : {1.0, -1.0})
          svg.polygon({c + Point(side * 12, 0), c + Point(side * 6, 2),
                       c + Point(side * 6, -2)},
                      {.fill = colour::ink});
      },
      "free distances, as a ruler measures them");
  const auto note = [&](std::string_view words) {
    right.entry([&](Point c) { svg.circle(c, 2, {.fill = colour::pale_ink}); },
                words);
  };
  if (scene.round()) note("pale left half: the mirror image of the right");
  if (!scene.used.wires.empty()) note("wires are counted, but not drawn");
  if (nameless > 0)
    note(fmt::format("solids without room for a name: {}", nameless));
  return std::max(left.bottom(), right.bottom());
}

}  // namespace

std::string drawing_picture(const solver::Case& c,
                            const mesh::Section& section) {
  const Scene scene = scene_of(c, section);
  Svg svg("drawing", page_width);
  SectionSheet sheet(
      svg, scene,
      draw_head(svg, c, kind_of_section(section.cut) + ". Not solved yet."));
  sheet.draw_panels(nullptr);
  const SectionLayout& layout = sheet.layout();
  const std::size_t nameless = sheet.draw_names();
  for (const Dimension& d : free_distances(scene))
    draw_dimension(svg, section, d, layout.tank, sheet.labels());
  draw_size(svg, scene, layout.part_panel(), sheet.labels());
  draw_depth_of_liquid(svg, scene, layout.tank, sheet.labels());
  sheet.block_close_up();
  sheet.draw_labels(nullptr);
  const double bottom = draw_legend(svg, scene, nameless, layout.bottom + 10);
  return svg.finish(bottom + 8, picture_title(c), description(scene));
}

}  // namespace thinspot::viz
