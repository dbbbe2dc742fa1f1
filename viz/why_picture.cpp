#include "viz/why_picture.hpp"

#include "mesh/digits.hpp"
#include "viz/chart_gaps.hpp"
#include "viz/chart_panel.hpp"
#include "viz/legend_column.hpp"
#include "viz/marks.hpp"
#include "viz/palette.hpp"
#include "viz/picture_head.hpp"
#include "viz/section_layout.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::viz {

namespace {

using solver::PartResult;
using solver::SurfacePoint;

constexpr double left = 48;
constexpr double right = page_width - 160;  ///< words stand right of it
constexpr double height = 230;
constexpr const char* by_shape = colour::heavy;

std::string text_of(double metres) {
  return digits(micrometres(metres)) + " \u00B5m";
}

std::string percent(double share) { return digits(100 * share, 2) + " %"; }

/// Largest thickness of the two curves that the chart still shows [um]: what
/// shape alone heaps up at an edge has no bound.
double highest(const PartResult& part, const solver::WhyPart& why) {
  const double most = 1.1 * part.thickness.value.max;
  const double mean = part.thickness.value.mean;
  return micrometres(std::max(
      {most, std::min(1.05 * why.ideal.largest * mean, 1.8 * most), 5e-8}));
}

void draw_curves(Svg& svg, const solver::Result& result, const PartResult& part,
                 const solver::WhyPart& why, const UnrolledScale& along,
                 const UprightScale& scale) {
  const auto pieces = unrolled_stretches(result, part);
  draw_upright_axis(svg, scale, "Thickness (\u00B5m)", 6);
  draw_curve(
      svg, part, pieces, along, scale,
      [](const SurfacePoint& s) { return micrometres(s.thickness); },
      colour::coating, colour::coating_edge);
  draw_line(svg, part, pieces, along, scale,
            [&](const SurfacePoint& s) {
              return micrometres(why.thickness(&s - part.surface.data()));
            },
            {.stroke = by_shape, .width = 2, .dash = "8 3 2 3"});
  const double mean = micrometres(part.thickness.value.mean);
  svg.line({left, scale.page(mean)}, {right, scale.page(mean)},
           {.stroke = colour::target, .width = 1.8, .dash = "3 3"});
}

void draw_notes(Svg& svg, const PartResult& part, const solver::WhyPart& why,
                const UprightScale& scale) {
  const solver::Spread& t = part.thickness.value;
  const double least = why.ideal.least * t.mean;
  const double largest = why.ideal.largest * t.mean;
  std::vector<SideNote> notes{
      {micrometres(t.mean), {"even " + text_of(t.mean)}, colour::target},
      {micrometres(t.min), {"least " + text_of(t.min)}, colour::coating_edge},
      {micrometres(least), {"by shape " + text_of(least)}, by_shape},
      {micrometres(t.max), {"largest " + text_of(t.max)}, colour::coating_edge},
      {std::min(micrometres(largest), scale.high),
       {"by shape " + text_of(largest)},
       by_shape}};
  if (micrometres(largest) > scale.high)
    notes.back().lines.emplace_back("(not shown)");
  draw_side_notes(svg, scale, notes, page_width - 6);
}

double draw_legend(Svg& svg, double top) {
  LegendColumn one(svg, 12, top, page_width / 2 - 18);
  LegendColumn two(svg, page_width / 2 + 6, top, page_width / 2 - 18);
  const auto line = [&svg](const Paint& paint) {
    return [&svg, paint](Point c) {
      svg.line(c - Point(12, 0), c + Point(12, 0), paint);
    };
  };
  one.entry(line({.stroke = by_shape, .width = 2, .dash = "8 3 2 3"}),
            "by shape and placing alone, without polarization");
  one.entry(line({.stroke = colour::coating_edge, .width = 2}),
            "as it will plate");
  two.entry(line({.stroke = colour::target, .width = 1.8, .dash = "3 3"}),
            "the same metal, perfectly even");
  return std::max(one.bottom(), two.bottom());
}

std::string in_figures(const solver::Why& why) {
  return fmt::format(
      "Off the mean on average: {} by shape alone, {} as it will plate.",
      percent(why.ideal), percent(why.actual));
}

}  // namespace

std::string why_picture(const solver::Result& result) {
  const PartResult& part = shown_part(result);
  const solver::Why& all = *result.appraisal.why;
  const solver::WhyPart& why =
      all.parts[static_cast<std::size_t>(&part - result.parts.data())];
  Svg svg("why", page_width);
  const double head =
      draw_head(svg, result,
                result.parts.size() > 1
                    ? "Where the unevenness comes from, on " + part.name
                    : std::string("Where the unevenness comes from"));
  const UnrolledScale along(result, part, left, right);
  const std::vector<FaceRun> runs = face_runs(part, along);
  const std::vector<ChartGap> gaps = chart_gaps(result, part, along);
  const double top = head + 30;
  const UprightScale scale{
      {left, top, right, top + height}, 0, highest(part, why)};
  shade_gaps(svg, gaps, scale.box);
  draw_curves(svg, result, part, why, along, scale);
  for (const auto& loop : along.loops())
    if (loop.length > 0)
      svg.rect({loop.left, scale.box.top, loop.right, scale.box.bottom},
               {.stroke = colour::pale_ink, .width = 0.8});
  for (const FaceRun& run : runs)
    if (!run.starts_loop)
      svg.line({run.left, scale.box.top}, {run.left, scale.box.bottom},
               {.stroke = colour::pale_ink, .width = 0.7, .dash = "1 3"});
  draw_notes(svg, part, why, scale);
  const double axis =
      draw_along_axis(svg, part, along, runs, scale.box.bottom, page_width - 8);
  svg.text({12, axis + 18}, in_figures(all), {.size = 12, .bold = true});
  const double bottom = draw_legend(svg, axis + 30);
  return svg.finish(bottom + 8, picture_title(result.used), in_figures(all));
}

}  // namespace thinspot::viz
