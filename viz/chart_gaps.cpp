#include "viz/chart_gaps.hpp"

#include "viz/palette.hpp"

#include <algorithm>

namespace thinspot::viz {

namespace {

constexpr double line_height = 14;
constexpr double narrowest = 1.5;  ///< that can be seen on the page

void shade(Svg& svg, const TextBox& box) {
  svg.rect(box, {.fill = "#eceef1"});
  svg.rect(box, {.fill = svg.pattern(Pattern::dots, "#8b95a1", 5)});
}

}  // namespace

std::vector<ChartGap> chart_gaps(const solver::Result& result,
                                 const solver::PartResult& part,
                                 const UnrolledScale& along) {
  std::vector<ChartGap> gaps;
  for (const BareStretch& stretch : bare_stretches(result, part)) {
    const auto& first = part.surface[stretch.points.front()];
    const auto& last = part.surface[stretch.points.back()];
    const auto& loop = along.loops()[static_cast<std::size_t>(first.loop)];
    ChartGap gap;
    gap.from = first.arc;
    // What ends where the loop begins ends at its end.
    const bool round = last.arc <= first.arc;
    gap.to = round ? loop.length : last.arc;
    gap.left = along.page(first.loop, first.arc);
    gap.right = round ? loop.right : along.page(last.loop, last.arc);
    const double lacking = narrowest - (gap.right - gap.left);
    if (lacking > 0) {
      gap.left -= lacking / 2;
      gap.right += lacking / 2;
    }
    gap.why = clean_text(stretch.why);
    gaps.push_back(std::move(gap));
  }
  return gaps;
}

void shade_gaps(Svg& svg, const std::vector<ChartGap>& gaps,
                const TextBox& panel) {
  for (const ChartGap& gap : gaps)
    shade(svg, {gap.left, panel.top, gap.right, panel.bottom});
}

void shade_swatch(Svg& svg, Point c) {
  shade(svg, {c.x() - 11, c.y() - 5, c.x() + 11, c.y() + 5});
}

std::vector<ChartGap> label_gaps(Svg& svg, const std::vector<ChartGap>& gaps,
                                 const TextBox& panel,
                                 std::vector<TextBox>& taken) {
  const TextStyle style{.size = 11.5,
                        .anchor = Anchor::middle,
                        .italic = true,
                        .fill = colour::ink,
                        .halo = true};
  std::vector<ChartGap> narrow;
  for (const ChartGap& gap : gaps) {
    const double width = gap.right - gap.left - 4;
    const std::vector<std::string> lines = wrapped(gap.why, style, width, 5);
    const bool fits = std::none_of(
        lines.begin(), lines.end(),
        [](const std::string& line) { return line.ends_with("\u2026"); });
    if (!fits || lines.empty()) {
      narrow.push_back(gap);
      continue;
    }
    const double x = 0.5 * (gap.left + gap.right);
    const double height = line_height * static_cast<double>(lines.size());
    double y = 0.5 * (panel.top + panel.bottom - height) + 11;
    for (const std::string& line : lines) {
      svg.text({x, y}, line, style);
      taken.push_back(text_box({x, y}, line, style).grown(2));
      y += line_height;
    }
  }
  return narrow;
}

}  // namespace thinspot::viz
