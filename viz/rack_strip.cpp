#include "viz/rack_strip.hpp"

#include "viz/chart_panel.hpp"
#include "viz/label_placer.hpp"
#include "viz/marks.hpp"
#include "viz/numbers.hpp"
#include "viz/palette.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::viz {

namespace {

constexpr double strip_height = 90;

void draw_copy(Svg& svg, const solver::PartResult& part, double x, double half,
               bool shown, const UprightScale& scale) {
  const solver::Spread& t = part.thickness.value;
  svg.rect({x - half, scale.page(micrometres(t.max)), x + half,
            scale.page(micrometres(t.min))},
           {.fill = shown ? colour::coating : "#f0cfa8",
            .stroke = colour::coating_edge,
            .width = shown ? 1.4 : 0.8});
  const double mean = scale.page(micrometres(t.mean));
  svg.line({x - half - 2, mean}, {x + half + 2, mean},
           {.stroke = colour::ink, .width = 2});
}

}  // namespace

int place_of(const solver::Result& result, std::size_t part) {
  const int copy = result.section.solids[result.parts[part].solid].spec.copy;
  return copy > 0 ? copy : static_cast<int>(part) + 1;
}

double draw_rack_strip(Svg& svg, const solver::Result& result, double left,
                       double right, double top) {
  const std::size_t n = result.parts.size();
  if (n < 2) return top;
  double high = 0, least_mean = 0, most_mean = 0;
  for (const solver::PartResult& part : result.parts) {
    const solver::Spread& t = part.thickness.value;
    high = std::max(high, t.max);
    most_mean = std::max(most_mean, t.mean);
    least_mean = least_mean > 0 ? std::min(least_mean, t.mean) : t.mean;
  }
  const double box_top = top + 30;
  const UprightScale scale{{left, box_top, right, box_top + strip_height},
                           0,
                           micrometres(std::max(1.08 * high, 5e-8))};
  draw_upright_axis(svg, scale, "Each part on the rack (\u00B5m)", 4);
  svg.rect(scale.box, {.stroke = colour::pale_ink, .width = 0.8});

  const double step = (right - left) / static_cast<double>(n);
  const double half = std::clamp(0.22 * step, 1.0, 9.0);
  const std::size_t shown = shown_index(result);
  LabelPlacer row({left - 20, scale.box.bottom, right + 60, box_top + 200});
  const double base = scale.box.bottom + 15;
  TextStyle number{.size = 11, .anchor = Anchor::middle, .bold = true};
  const auto put_number = [&](std::size_t k) {
    const Point at(left + (static_cast<double>(k) + 0.5) * step, base);
    const std::string text = fmt::format("{}", place_of(result, k));
    if (row.take(text_box(at, text, number).grown(2)))
      svg.text(at, text, number);
  };
  put_number(shown);
  number.bold = false;
  number.fill = colour::pale_ink;
  for (std::size_t k = 0; k < n; ++k) {
    draw_copy(svg, result.parts[k],
              left + (static_cast<double>(k) + 0.5) * step, half, k == shown,
              scale);
    if (k != shown) put_number(k);
  }
  const auto note = [&](const std::string& word, double value) {
    return SideNote{micrometres(value),
                    {word, micrometre_text(value, 3)},
                    colour::ink,
                    false,
                    {}};
  };
  draw_side_notes(
      svg, scale,
      {note("highest mean", most_mean), note("lowest mean", least_mean)},
      svg.width() - 6);
  svg.text({left, base + 17},
           "From least to largest, the mean as a line; by place on the rack.",
           {.size = 11.5, .fill = colour::pale_ink});
  return base + 22;
}

}  // namespace thinspot::viz
