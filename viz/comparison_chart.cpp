#include "viz/comparison_chart.hpp"

#include "mesh/digits.hpp"
#include "viz/chart_gaps.hpp"
#include "viz/chart_panel.hpp"
#include "viz/coating.hpp"
#include "viz/difference_panel.hpp"
#include "viz/legend_column.hpp"
#include "viz/numbers.hpp"
#include "viz/palette.hpp"
#include "viz/picture_head.hpp"
#include "viz/section_layout.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::viz {

namespace {

using solver::Comparison;
using solver::KeptResult;
using solver::PartComparison;
using solver::PartResult;
using solver::SurfacePoint;

constexpr double left = 48;
constexpr double right_notes = 160;  ///< room for words right of the panels
constexpr double right = page_width - right_notes;
constexpr double thickness_height = 210;
constexpr double difference_height = 130;

double thickness_of(const SurfacePoint& s) { return micrometres(s.thickness); }

/// Part a where it is plated in both, with another value in place of its
/// thickness.
template <class Value>
PartResult with_values(const PartResult& part, const PartComparison& c,
                       const Value& value) {
  PartResult copy = part;
  for (std::size_t k = 0; k < copy.surface.size(); ++k) {
    copy.surface[k].wetted = c.both[k] != 0;
    copy.surface[k].thickness = value(k);
  }
  return copy;
}

/// Of all points that count, or of all where none does; corners apart they are
/// as high as the summary says.
double highest(const PartResult& a, const PartResult& b) {
  double most = 0;
  for (const PartResult* part : {&a, &b})
    most = std::max(most, part->thickness.value.max);
  constexpr double least = 5e-8;  // below, the curve is as good as zero
  return 1.08 * micrometres(std::max(most, least));
}

/// The target of both, where it is one.
std::optional<double> common_target(const KeptResult& a, const KeptResult& b) {
  const auto &in_a = a.result.target, &in_b = b.result.target;
  if (!in_a || !in_b || in_a->wanted != in_b->wanted) return std::nullopt;
  return micrometres(in_a->wanted);
}

std::string head_line(const KeptResult& a, const Comparison& c) {
  if (c.parts.size() < 2)
    return "Coating along the surface of the part, unrolled: two results "
           "against each other.";
  return "Coating along the surface of " +
         a.result.parts[c.parts[c.most].a].name +
         ", where two results differ most, unrolled.";
}

/// Mean, heaviest and thinnest of each result beside the panel.
std::vector<SideNote> side_notes(const PartResult& a, const PartResult& b) {
  std::vector<SideNote> notes;
  const auto add = [&](const char* word, double metres, const char* colour) {
    notes.push_back({micrometres(metres),
                     {std::string(word) + " " + micrometre_text(metres, 3)},
                     colour,
                     false,
                     {}});
  };
  const auto &of_a = a.thickness.value, &of_b = b.thickness.value;
  add("A largest", of_a.max, colour::coating_edge);
  add("A mean", of_a.mean, colour::coating_edge);
  add("A least", of_a.min, colour::coating_edge);
  add("B largest", of_b.max, colour::other_result);
  add("B mean", of_b.mean, colour::other_result);
  add("B least", of_b.min, colour::other_result);
  return notes;
}

const Paint line_of_b{.stroke = colour::other_result, .width = 2.2};

double draw_legend(Svg& svg, const KeptResult& a, const KeptResult& b,
                   const PartResult& part, bool banded,
                   const std::vector<ChartGap>& narrow, double top) {
  LegendColumn wide(svg, 12, top, page_width - 24);
  const auto named = [](const char* letter, const KeptResult& kept) {
    return fmt::format("{}: {} ({})", letter, kept.name,
                       kept.result.used.title);
  };
  wide.entry([&](Point c) { coating_swatch(svg, c); }, named("A", a));
  wide.entry(
      [&](Point c) { svg.line(c - Point(11, 0), c + Point(11, 0), line_of_b); },
      named("B", b));
  const double width = page_width / 2 - 18;
  LegendColumn one(svg, 12, wide.bottom(), width);
  LegendColumn two(svg, page_width / 2 + 6, wide.bottom(), width);
  add_difference_entries(svg, one, two);
  if (banded)
    two.entry(
        [&](Point c) {
          strip_swatch(svg, c - Point(0, 2.5), colour::coating_edge);
          strip_swatch(svg, c + Point(0, 2.5), colour::other_result);
        },
        "their 95 % bands");
  if (std::any_of(part.surface.begin(), part.surface.end(),
                  [](const auto& s) { return s.wetted && !s.judged; }))
    two.entry(
        [&](Point c) {
          svg.rect({c.x() - 11, c.y() - 5, c.x() + 11, c.y() + 5},
                   {.fill = svg.hatch(colour::not_judged, 4),
                    .stroke = colour::pale_ink,
                    .dash = "4 3"});
        },
        "plated too, but not judged");
  constexpr std::size_t most = 8;
  for (std::size_t k = 0; k < std::min(most, narrow.size()); ++k)
    one.entry([&](Point c) { shade_swatch(svg, c); },
              fmt::format("{} to {} mm: {}", digits(narrow[k].from * 1e3),
                          digits(narrow[k].to * 1e3), narrow[k].why));
  return std::max(one.bottom(), two.bottom());
}

std::string description(const PartResult& a, const PartResult& b,
                        const PartComparison& c) {
  std::string text = fmt::format(
      "Thickness of two coatings along one surface: mean {} \u00B5m in A, {} "
      "\u00B5m in B.",
      digits(micrometres(a.thickness.value.mean)),
      digits(micrometres(b.thickness.value.mean)));
  if (c.gain)
    text += fmt::format(" B has most more {}: {} \u00B5m.", c.gain->where,
                        digits(micrometres(c.gain->by())));
  if (c.loss)
    text += fmt::format(" B has most less {}: {} \u00B5m.", c.loss->where,
                        digits(micrometres(-c.loss->by())));
  return text;
}

}  // namespace

std::string comparison_chart(const KeptResult& a, const KeptResult& b,
                             const Comparison& comparison) {
  // 1. What is drawn.
  const PartComparison& c = comparison.parts[comparison.most];
  const PartResult &part = a.result.parts[c.a], &other = b.result.parts[c.b];
  const auto in_b = [&](std::size_t k) {
    return c.thickness(static_cast<Eigen::Index>(k));
  };
  PartResult of_b = with_values(part, c, in_b);
  for (std::size_t k = 0; k < c.band.size(); ++k)
    of_b.surface[k].thickness_band = c.band[k];
  const PartResult by = with_values(part, c, [&](std::size_t k) {
    return in_b(k) - part.surface[k].thickness;
  });

  // 2. Scales.
  Svg svg("comparison", page_width);
  solver::Case head;
  const bool alike = a.result.used.title == b.result.used.title;
  head.title = alike ? a.result.used.title
                     : a.result.used.title + " against " + b.result.used.title;
  const double top = draw_head(svg, head, head_line(a, comparison)) + 30;
  const UnrolledScale along(a.result, part, left, right);
  const std::vector<FaceRun> runs = face_runs(part, along);
  const std::vector<ChartGap> gaps = chart_gaps(a.result, part, along);
  const auto target = common_target(a, b);
  double high = highest(part, other);
  if (target && 1.08 * *target < 2.5 * high)
    high = std::max(high, 1.08 * *target);
  const UprightScale thickness{
      {left, top, right, top + thickness_height}, 0, high};
  const double second = top + thickness_height + 36;
  const UprightScale difference =
      difference_scale(c, {left, second, right, second + difference_height});

  // 3. Panels.
  for (const TextBox& box : {thickness.box, difference.box})
    shade_gaps(svg, gaps, box);
  draw_upright_axis(svg, thickness, "Thickness (\u00B5m)", 6);
  const bool banded = solver::has_bands(a) && !c.band.empty();
  const std::vector<Stretch> on_a = unrolled_stretches(a.result, part);
  const std::vector<Stretch> on_b = unrolled_stretches(a.result, of_b);
  if (banded) {
    draw_thickness_band(svg, part, on_a, along, thickness,
                        colour::coating_edge);
    draw_thickness_band(svg, of_b, on_b, along, thickness,
                        colour::other_result);
  }
  draw_curve(svg, part, on_a, along, thickness, thickness_of, colour::coating,
             colour::coating_edge);
  draw_line(svg, of_b, on_b, along, thickness, thickness_of, line_of_b);
  std::vector<SideNote> notes = side_notes(part, other);
  if (target && *target <= thickness.high) {
    const double y = thickness.page(*target);
    svg.line({left, y}, {right, y},
             {.stroke = colour::target, .width = 1.8, .dash = "7 4"});
    notes.push_back({*target,
                     {"target " + digits(*target) + " \u00B5m"},
                     colour::target,
                     true,
                     {}});
  }
  draw_side_notes(svg, thickness, notes, page_width - 6);
  draw_difference(svg, a.result, by, c, along, difference);
  for (const TextBox& box : {thickness.box, difference.box}) {
    draw_separators(svg, runs, box.top, box.bottom);
    draw_box(svg, along, box);
  }
  std::vector<TextBox> taken;
  const std::vector<ChartGap> narrow =
      label_gaps(svg, gaps, thickness.box, taken);

  // 4. Words below.
  const double axis = draw_along_axis(svg, part, along, runs,
                                      difference.box.bottom, page_width - 8);
  svg.text({12, axis + 16},
           "From the part's lowest point counter-clockwise, as the section of "
           "A shows it.",
           {.size = 12, .fill = colour::pale_ink});
  const double bottom = draw_legend(svg, a, b, part, banded, narrow, axis + 30);
  return svg.finish(bottom + 8, picture_title(head),
                    description(part, other, c));
}

}  // namespace thinspot::viz
