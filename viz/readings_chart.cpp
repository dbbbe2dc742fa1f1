#include "viz/readings_chart.hpp"

#include "mesh/digits.hpp"
#include "solver/correlation.hpp"
#include "viz/chart_gaps.hpp"
#include "viz/chart_panel.hpp"
#include "viz/coating.hpp"
#include "viz/legend_column.hpp"
#include "viz/numbers.hpp"
#include "viz/palette.hpp"
#include "viz/picture_head.hpp"
#include "viz/section_layout.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::viz {

namespace {

using solver::KeptResult;
using solver::PartResult;
using solver::ReadAgainst;
using solver::SurfacePoint;
using All = std::vector<ReadAgainst>;

constexpr double left = 48;
constexpr double right = page_width - 60;
constexpr double height = 210;
constexpr double line_height = 17;
/// Readings drawn in the list; the table has them all.
constexpr std::size_t kMost = 40;

/// The part that most readings with a place are of; none: no place at all.
const PartResult* part_read(const KeptResult& kept, const All& all) {
  std::vector<std::size_t> count(kept.result.parts.size(), 0);
  for (const ReadAgainst& a : all)
    if (a.place) ++count[a.place->part];
  const auto most = std::max_element(count.begin(), count.end());
  if (most == count.end() || *most == 0) return nullptr;
  return &kept.result.parts[static_cast<std::size_t>(most - count.begin())];
}

bool is_on(const ReadAgainst& a, const KeptResult& kept,
           const PartResult& part) {
  return a.place && &kept.result.parts[a.place->part] == &part;
}

/// A reading with its ±.
void draw_reading(Svg& svg, const UprightScale& scale, double x, double um,
                  double plus_minus) {
  const Paint ink{.stroke = colour::other_result, .width = 1.6};
  const auto page = [&](double value) {
    return std::clamp(scale.page(value), scale.box.top, scale.box.bottom);
  };
  const double low = page(um - plus_minus), high = page(um + plus_minus);
  svg.line({x, low}, {x, high}, ink);
  for (const double end : {low, high})
    svg.line({x - 4, end}, {x + 4, end}, ink);
  svg.circle({x, page(um)}, 3.6,
             {.fill = "#fff", .stroke = colour::other_result, .width = 2});
}

/// @returns where it ends
double draw_along(Svg& svg, const KeptResult& kept, const PartResult& part,
                  const All& all, double top) {
  const UnrolledScale along(kept.result, part, left, right);
  const std::vector<FaceRun> runs = face_runs(part, along);
  double most = std::max(part.thickness.value.max, 5e-8);
  for (const ReadAgainst& a : all)
    if (is_on(a, kept, part))
      most = std::max(most, std::min(a.reading.value + a.reading.plus_minus,
                                     4 * part.thickness.value.max));
  const UprightScale scale{
      {left, top, right, top + height}, 0, 1.08 * micrometres(most)};
  const std::vector<ChartGap> gaps = chart_gaps(kept.result, part, along);
  shade_gaps(svg, gaps, scale.box);
  draw_upright_axis(svg, scale, "Thickness (\u00B5m)", 6);
  const std::vector<Stretch> pieces = unrolled_stretches(kept.result, part);
  const bool banded = solver::has_bands(kept);
  if (banded)
    draw_thickness_band(svg, part, pieces, along, scale, colour::coating_edge);
  draw_curve(
      svg, part, pieces, along, scale,
      [](const SurfacePoint& s) { return micrometres(s.thickness); },
      colour::coating, colour::coating_edge);
  draw_separators(svg, runs, scale.box.top, scale.box.bottom);
  draw_box(svg, along, scale.box);
  for (const ReadAgainst& a : all)
    if (is_on(a, kept, part))
      draw_reading(svg, scale, along.page(a.place->loop, a.place->arc),
                   micrometres(a.reading.value),
                   micrometres(a.reading.plus_minus));
  const double axis =
      draw_along_axis(svg, part, along, runs, scale.box.bottom, page_width - 8);
  LegendColumn one(svg, 12, axis + 6, page_width / 2 - 18);
  LegendColumn two(svg, page_width / 2 + 6, axis + 6, page_width / 2 - 18);
  one.entry([&](Point c) { coating_swatch(svg, c); },
            banded ? "forecast; strip: its 95 % band" : "forecast");
  two.entry(
      [&](Point c) {
        draw_reading(svg, {{c.x(), c.y() - 7, c.x(), c.y() + 7}, 0, 1}, c.x(),
                     0.5, 0.5);
      },
      "read, with its own \u00B1");
  return std::max(one.bottom(), two.bottom());
}

/// One line and bar a reading, from zero to its z. @returns where it ends
double draw_list(Svg& svg, const All& all,
                 const std::vector<std::string>& names, double top) {
  const std::size_t shown = std::min(kMost, all.size());
  double most = 2.5;
  for (std::size_t k = 0; k < shown; ++k)
    most = std::max(most, std::min(std::abs(all[k].z), 12.0));
  most *= 1.1;
  const double from = 250, to = page_width - 56;
  const auto page = [&](double z) {
    return from +
           (std::clamp(z, -most, most) + most) / (2 * most) * (to - from);
  };
  svg.text({12, top + 12}, "Forecast less reading", {.size = 12, .bold = true});
  svg.text({from, top + 12}, "in standard deviations of both together",
           {.size = 12, .fill = colour::pale_ink});
  const double first = top + 24;
  const double last = first + line_height * static_cast<double>(shown);
  svg.rect({page(-solver::kOf95), first, page(solver::kOf95), last},
           {.fill = "#d6e8dc"});
  const TextStyle words{.size = 12};
  for (std::size_t k = 0; k < shown; ++k) {
    const double z = all[k].z;
    const double middle = first + line_height * (static_cast<double>(k) + 0.5);
    const bool off = std::abs(z) > solver::kOf95;
    svg.text({12, middle + 4},
             shortened(clean_text(names[k]), words, from - 24), words);
    const double end = page(z);
    svg.line({page(0), middle}, {end, middle},
             {.stroke = off ? colour::thin : colour::ink, .width = 2});
    svg.circle({end, middle}, 3.4,
               {.fill = off ? colour::thin : "#fff",
                .stroke = off ? colour::thin : colour::ink,
                .width = 1.6});
    svg.text({page_width - 12, middle + 4},
             (z < 0 ? "\u2212" : "+") + full_digits(std::abs(z), 2),
             {.size = 12,
              .anchor = Anchor::end,
              .bold = off,
              .fill = off ? colour::thin : colour::ink});
  }
  svg.line({page(0), first}, {page(0), last},
           {.stroke = colour::ink, .width = 1.4});
  const TextStyle number{
      .size = 11, .anchor = Anchor::middle, .fill = colour::pale_ink};
  for (const Tick& t : ticks(-most, most, 6)) {
    svg.line({page(t.value), last}, {page(t.value), last + 4},
             {.stroke = colour::pale_ink});
    svg.text({page(t.value), last + 15}, t.label, number);
  }
  LegendColumn legend(svg, 12, last + 24, page_width - 24);
  legend.entry(
      [&](Point c) {
        svg.rect({c.x() - 11, c.y() - 5, c.x() + 11, c.y() + 5},
                 {.fill = "#d6e8dc"});
      },
      "where 19 of 20 lie if all uncertainties are as stated; beyond it filled "
      "and bold");
  if (shown < all.size())
    legend.entry([](Point) {}, fmt::format("and {} more readings in the table",
                                           all.size() - shown));
  return legend.bottom();
}

}  // namespace

std::string readings_chart(const KeptResult& kept, const All& all,
                           const std::vector<std::string>& names) {
  Svg svg("readings", page_width);
  const PartResult* part = part_read(kept, all);
  std::string line = "What was read at the bench against the forecast";
  if (part)
    line += kept.result.parts.size() > 1
                ? "; coating along the surface of " + part->name + ", unrolled"
                : "; coating along the surface, unrolled";
  double bottom = draw_head(svg, kept.result.used, line + ".");
  if (part) bottom = draw_along(svg, kept, *part, all, bottom + 30);
  bottom = draw_list(svg, all, names, bottom + 14);
  std::string text = "Forecast less reading, in standard deviations:";
  for (std::size_t k = 0; k < std::min(kMost, all.size()); ++k)
    text += fmt::format(" {}: {};", names[k], digits(all[k].z, 2));
  text.back() = '.';
  return svg.finish(bottom + 8, picture_title(kept.result.used), text);
}

}  // namespace thinspot::viz
