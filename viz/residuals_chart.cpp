#include "viz/residuals_chart.hpp"

#include "viz/palette.hpp"
#include "viz/picture_head.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace thinspot::viz {

namespace {

constexpr double kMargin = 12;
constexpr std::size_t kMost = 40;
constexpr double kFarthest = 4;  ///< half widths that the picture spans
constexpr double kLine = 15.5, kTrack = 20, kBetween = 8, kDot = 4.5;

double page(double off) {
  const double share = std::clamp(off, -kFarthest, kFarthest) / kFarthest;
  return narrow_width / 2 + share * (narrow_width / 2 - kMargin - 10);
}

/// Of those beyond the edge, which way they lie.
void draw_arrow(Svg& svg, double off, double y, const std::string& stroke) {
  if (std::abs(off) <= kFarthest) return;
  const double way = off > 0 ? 1 : -1, x = page(off) + 7 * way;
  PathText d;
  d.chain({{x, y - 4}, {x + 5 * way, y}, {x, y + 4}}, false);
  svg.path(d, {.stroke = stroke, .width = 1.6});
}

void draw_before(Svg& svg, double off, double y) {
  svg.circle({page(off), y}, kDot,
             {.fill = "#ffffff", .stroke = colour::pale_ink, .width = 1.5});
  draw_arrow(svg, off, y, colour::pale_ink);
}

void draw_now(Svg& svg, const ResidualRow& row, double y) {
  const std::string fill = row.outlier ? colour::thin : colour::target;
  const double x = page(row.now);
  if (row.outlier)
    svg.polygon({{x, y - 6}, {x + 6, y}, {x, y + 6}, {x - 6, y}},
                {.fill = fill, .stroke = fill});
  else
    svg.circle({x, y}, kDot, {.fill = fill, .stroke = fill});
  draw_arrow(svg, row.now, y, fill);
}

/// @returns where it ends.
double draw_row(Svg& svg, const ResidualRow& row, double y) {
  const TextStyle name{.size = 12.5, .bold = row.outlier};
  for (const std::string& line :
       wrapped(clean_text(row.name), name, narrow_width - 2 * kMargin, 2)) {
    svg.text({kMargin, y + 12}, line, name);
    y += kLine;
  }
  const TextStyle small{.size = 12, .fill = colour::pale_ink};
  for (const std::string& line :
       wrapped(clean_text(row.figures), small, narrow_width - 2 * kMargin, 2)) {
    svg.text({kMargin, y + 11}, line, small);
    y += kLine;
  }
  if (row.outlier) {
    svg.text({kMargin, y + 11}, "does not go with the others",
             {.size = 12, .fill = colour::thin});
    y += kLine;
  }
  const double middle = y + kTrack / 2;
  svg.rect({page(-1), y, page(1), y + kTrack}, {.fill = colour::grid});
  svg.line({page(-kFarthest), middle}, {page(kFarthest), middle},
           {.stroke = colour::grid});
  svg.line({page(0), y - 1}, {page(0), y + kTrack + 1},
           {.stroke = colour::ink, .width = 1.4});
  draw_before(svg, row.before, middle);
  draw_now(svg, row, middle);
  return y + kTrack + kBetween;
}

double draw_legend(Svg& svg, double y) {
  const TextStyle words{.size = 12, .fill = colour::pale_ink};
  svg.circle({kMargin + kDot, y + 8}, kDot,
             {.fill = "#ffffff", .stroke = colour::pale_ink, .width = 1.5});
  svg.text({kMargin + 16, y + 12}, "by the case as it was", words);
  svg.circle({kMargin + 166, y + 8}, kDot,
             {.fill = colour::target, .stroke = colour::target});
  svg.text({kMargin + 178, y + 12}, "by the fitted values", words);
  y += 18;
  svg.rect({kMargin, y + 2, kMargin + 14, y + 14}, {.fill = colour::grid});
  svg.text({kMargin + 20, y + 12},
           "how sure the reading is (95 %), about what was read", words);
  return y + 26;
}

std::vector<ResidualRow> shown_rows(const std::vector<ResidualRow>& rows) {
  if (rows.size() <= kMost) return rows;
  std::vector<std::size_t> order(rows.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) {
                     return std::abs(rows[a].now) > std::abs(rows[b].now);
                   });
  order.resize(kMost);
  std::sort(order.begin(), order.end());
  std::vector<ResidualRow> shown;
  for (const std::size_t k : order) shown.push_back(rows[k]);
  return shown;
}

std::string description(const std::vector<ResidualRow>& rows) {
  std::string text =
      "What the case says of each reading, beyond what was read, in the "
      "reading's own 95 % half width:";
  for (const ResidualRow& r : rows)
    text +=
        fmt::format(" {}: {:.1f} before, {:.1f} now;", r.name, r.before, r.now);
  text.back() = '.';
  return text;
}

}  // namespace

std::string residuals_chart(const solver::Case& c,
                            const std::vector<ResidualRow>& rows) {
  const std::vector<ResidualRow> shown = shown_rows(rows);
  Svg svg("residuals", narrow_width);
  double y = draw_head(svg, c, "What was read, and what the case says of it.");
  y = draw_legend(svg, y + 8);
  const TextStyle side{.size = 12, .fill = colour::pale_ink};
  TextStyle right = side;
  right.anchor = Anchor::end;
  svg.text({kMargin, y + 12}, "\u2190 less than read", side);
  svg.text({narrow_width - kMargin, y + 12}, "more than read \u2192", right);
  y += 22;
  for (const ResidualRow& row : shown) y = draw_row(svg, row, y);
  if (shown.size() < rows.size()) {
    svg.text({kMargin, y + 12},
             fmt::format("and {} readings nearer to the line",
                         rows.size() - shown.size()),
             side);
    y += 18;
  }
  return svg.finish(y + 4, "Readings: " + picture_title(c), description(shown));
}

}  // namespace thinspot::viz
