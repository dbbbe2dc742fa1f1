#include "viz/difference_panel.hpp"

#include "mesh/digits.hpp"
#include "viz/chart_panel.hpp"
#include "viz/coating.hpp"
#include "viz/palette.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::viz {

namespace {

using solver::Differing;
using solver::SurfacePoint;

/// "+4.5 µm", "−0.2 µm".
std::string signed_text(double um) {
  return (um < 0 ? "\u2212" : "+") + digits(std::abs(um)) + " \u00B5m";
}

/// The half of the panel above zero, or below it.
UprightScale half(const UprightScale& scale, bool above) {
  UprightScale part = scale;
  const double zero = scale.page(0);
  (above ? part.box.bottom : part.box.top) = zero;
  (above ? part.low : part.high) = 0;
  return part;
}

}  // namespace

UprightScale difference_scale(const solver::PartComparison& c,
                              const TextBox& box) {
  double high = c.gain ? 1.25 * micrometres(c.gain->by()) : 0;
  double low = c.loss ? 1.25 * micrometres(c.loss->by()) : 0;
  // A tenth of the panel on either side of the line, whatever there is.
  // Less than a hundredth of a micrometre is none for any purpose.
  const double span = std::max(high - low, 0.05);
  high = std::max(high, 0.1 * span);
  low = std::min(low, -0.1 * span);
  return {box, low, high};
}

void draw_difference(Svg& svg, const solver::Result& result,
                     const solver::PartResult& by,
                     const solver::PartComparison& c,
                     const UnrolledScale& along, const UprightScale& scale) {
  draw_upright_axis(svg, scale, "B less A (\u00B5m)", 4);
  const PointValue value = [](const SurfacePoint& s) {
    return micrometres(s.thickness);
  };
  const std::vector<Stretch> pieces = unrolled_stretches(result, by);
  draw_curve(svg, by, pieces, along, half(scale, true), value, colour::target,
             colour::target);
  draw_curve(svg, by, pieces, along, half(scale, false), value,
             svg.hatch(colour::thin, 4), colour::thin);
  const double zero = scale.page(0);
  svg.line({scale.box.left, zero}, {scale.box.right, zero},
           {.stroke = colour::ink, .width = 1.4});
  std::vector<SideNote> notes;
  const auto mark = [&](const std::optional<Differing>& d, const char* word,
                        const char* colour) {
    if (!d) return;
    const SurfacePoint& p = by.surface[d->point];
    const double um = micrometres(d->by());
    const Point at(along.page(p.loop, p.arc), scale.page(um));
    svg.circle(at, 3.4, {.fill = "#fff", .stroke = colour, .width = 1.8});
    notes.push_back({um, {word, signed_text(um)}, colour, false, {}});
  };
  mark(c.gain, "most gained", colour::target);
  mark(c.loss, "most lost", colour::thin);
  if (notes.empty())
    notes.push_back({0, {"no difference"}, colour::ink, false, {}});
  draw_side_notes(svg, scale, notes, svg.width() - 6);
}

void add_difference_entries(Svg& svg, LegendColumn& one, LegendColumn& two) {
  one.entry(
      [&](Point c) {
        svg.rect({c.x() - 11, c.y() - 5, c.x() + 11, c.y() + 5},
                 {.fill = colour::target, .opacity = 0.3});
        svg.line(c + Point(-11, -5), c + Point(11, -5),
                 {.stroke = colour::target, .width = 2});
      },
      "B is thicker; the ring: most of all that counts");
  two.entry(
      [&](Point c) {
        svg.rect({c.x() - 11, c.y() - 5, c.x() + 11, c.y() + 5},
                 {.fill = svg.hatch(colour::thin, 4)});
        svg.line(c + Point(-11, 5), c + Point(11, 5),
                 {.stroke = colour::thin, .width = 2});
      },
      "B is thinner, likewise");
}

}  // namespace thinspot::viz
