#include "viz/current_panel.hpp"

#include "mesh/digits.hpp"
#include "viz/chart_panel.hpp"
#include "viz/coating.hpp"
#include "viz/palette.hpp"

#include <algorithm>

namespace thinspot::viz {

namespace {

using solver::PartResult;
using solver::SurfacePoint;

double per_dm2(double per_m2) { return per_m2 / 100; }

}  // namespace

double highest_current(const PartResult& part, const solver::Target& target) {
  const double most = part.current_density.value.max;
  double high = 1.15 * most;
  for (const double limit :
       {target.burning_current_density.value_or(0),
        target.working_range ? (*target.working_range)[1] : 0.0})
    if (limit < 2.5 * most) high = std::max(high, 1.1 * limit);
  return high > 0 ? per_dm2(high) : 1;
}

void draw_current(Svg& svg, const solver::Result& result,
                  const PartResult& part, const UnrolledScale& along,
                  const UprightScale& scale) {
  const double left = scale.box.left, right = scale.box.right;
  const solver::Target& target = result.used.target;
  std::vector<SideNote> notes;
  if (target.working_range) {
    const double low = per_dm2((*target.working_range)[0]);
    const double high = per_dm2((*target.working_range)[1]);
    svg.rect({left, scale.page(std::min(high, scale.high)), right,
              scale.page(std::min(low, scale.high))},
             {.fill = "#d6e8dc", .opacity = 0.8});
    notes.push_back({std::min(0.5 * (low + high), scale.high),
                     {"working range", digits(low) + " to " + digits(high)},
                     colour::target,
                     false,
                     {}});
  }
  draw_upright_axis(svg, scale,
                    result.layers.empty()
                        ? "Current density (A/dm\u00B2)"
                        : "Current density in the last step (A/dm\u00B2)",
                    3);
  draw_curve(
      svg, part, unrolled_stretches(result, part), along, scale,
      [](const SurfacePoint& s) { return per_dm2(s.current_density); },
      "#6f8fae", colour::current);
  if (target.burning_current_density) {
    const double limit = per_dm2(*target.burning_current_density);
    const bool shown = limit <= scale.high;
    if (shown) {
      const double y = scale.page(limit);
      svg.line({left, y}, {right, y},
               {.stroke = colour::thin, .width = 1.8, .dash = "2 3"});
    }
    notes.push_back(
        {std::min(limit, scale.high),
         {"burns from " + digits(limit), shown ? "" : "(not shown)"},
         colour::thin,
         true,
         {}});
    if (shown) notes.back().lines.pop_back();
  }
  const solver::BurnMap& map = result.appraisal.burn;
  if (map.limit && !map.given) {
    const double burns = per_dm2(solver::kBurntShare * *map.limit);
    if (burns <= scale.high) {
      const double y = scale.page(burns);
      svg.line({left, y}, {right, y},
               {.stroke = colour::burnt, .width = 1.8, .dash = "2 3"});
      notes.push_back({burns,
                       {"likely burns from " + digits(burns, 2)},
                       colour::burnt,
                       true,
                       {}});
    }
  }
  draw_side_notes(svg, scale, notes, svg.width() - 6);
}

}  // namespace thinspot::viz
