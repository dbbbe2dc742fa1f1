#include "viz/solid_legend.hpp"

#include "viz/solid_look.hpp"
#include "viz/surface_marks.hpp"

namespace thinspot::viz {

TextBox swatch(Point c) {
  return {c.x() - 11, c.y() - 5, c.x() + 11, c.y() + 5};
}

void solid_entries(Svg& svg, LegendColumn& column, const Scene& scene) {
  for (const SolidKind kind : kinds_in(scene.section, scene.used)) {
    if (kind == SolidKind::part) continue;
    column.entry(
        [&](Point c) {
          const TextBox b = swatch(c);
          PathText d;
          d.chain({{b.left, b.top},
                   {b.right, b.top},
                   {b.right, b.bottom},
                   {b.left, b.bottom}},
                  true);
          draw_solid(svg, d, kind, "");
        },
        kind_words(kind));
  }
  if (has_lacquer(scene.section))
    column.entry([&](Point c) { draw_lacquer_sign(svg, c); },
                 "stop-off lacquer: nothing plates under it");
}

}  // namespace thinspot::viz
