#include "viz/burn_marks.hpp"

#include "viz/palette.hpp"

#include <algorithm>
#include <vector>

namespace thinspot::viz {

namespace {

using solver::Burn;
using solver::BurnSpan;
using solver::PartResult;

constexpr double inside_by = 4;  ///< page units from the outline

Paint paint_of(bool burnt, const std::string& clip = {}) {
  return {.stroke = colour::burnt,
          .width = burnt ? 4.0 : 2.0,
          .dash = burnt ? "3 1.5" : "2 3",
          .clip = clip};
}

bool is_burnt(const BurnSpan& span) { return span.kind != Burn::dull; }

std::vector<BurnSpan> spans_on(const solver::Result& result,
                               const PartResult& part) {
  const auto index = static_cast<std::size_t>(&part - result.parts.data());
  std::vector<BurnSpan> spans;
  for (const BurnSpan& s : result.appraisal.burn.spans)
    if (s.part == index) spans.push_back(s);
  // What is burnt lies over what is dull.
  std::stable_sort(spans.begin(), spans.end(),
                   [](const BurnSpan& a, const BurnSpan& b) {
                     return !is_burnt(a) && is_burnt(b);
                   });
  return spans;
}

/// The surface's points on a span, in order, as open runs.
std::vector<std::vector<Point>> runs_of(const PartResult& part,
                                        const BurnSpan& span,
                                        const Frame& frame) {
  std::vector<std::vector<Point>> runs;
  bool on = false;
  for (const solver::SurfacePoint& p : part.surface) {
    const bool here = holds(span, p.loop, p.arc);
    if (here && !on) runs.emplace_back();
    on = here;
    if (!here) continue;
    // The page's y runs down.
    const Point out(p.normal.x(), -p.normal.y());
    runs.back().push_back(frame.page(p.at) - inside_by * out);
  }
  return runs;
}

bool any(const solver::Result& result, bool burnt) {
  const auto& spans = result.appraisal.burn.spans;
  return std::any_of(spans.begin(), spans.end(),
                     [&](const BurnSpan& s) { return is_burnt(s) == burnt; });
}

}  // namespace

void draw_burns(Svg& svg, const solver::Result& result, const PartResult& part,
                const Frame& frame, const std::string& clip) {
  for (const BurnSpan& span : spans_on(result, part)) {
    PathText d;
    for (const auto& run : runs_of(part, span, frame))
      d.chain(simplified(run, 0.2), false);
    svg.path(d, paint_of(is_burnt(span), clip));
  }
}

void draw_burns(Svg& svg, const solver::Result& result, const PartResult& part,
                const UnrolledScale& along, const TextBox& panel) {
  const double y = panel.top + 3;
  for (const BurnSpan& s : spans_on(result, part)) {
    const Paint paint = paint_of(is_burnt(s));
    const double end = std::min(s.to, s.around);
    svg.line({along.page(s.loop, s.from), y}, {along.page(s.loop, end), y},
             paint);
    if (s.to > s.around)
      svg.line({along.page(s.loop, 0), y},
               {along.page(s.loop, s.to - s.around), y}, paint);
  }
}

void add_burn_entries(Svg& svg, LegendColumn& column,
                      const solver::Result& result) {
  const auto sign = [&svg](bool burnt) {
    return [&svg, burnt](Point c) {
      svg.line(c - Point(11, 0), c + Point(11, 0), paint_of(burnt));
    };
  };
  if (any(result, true)) column.entry(sign(true), "likely burnt, not certain");
  if (any(result, false))
    column.entry(sign(false), "likely dull or rough, not certain");
}

}  // namespace thinspot::viz
