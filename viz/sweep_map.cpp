#include "viz/sweep_map.hpp"

#include "viz/legend_column.hpp"
#include "viz/palette.hpp"
#include "viz/picture_head.hpp"
#include "viz/sweep_axis.hpp"
#include "viz/sweep_legend.hpp"
#include "viz/sweep_panel.hpp"
#include "viz/sweep_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <optional>

namespace thinspot::viz {

namespace {

constexpr double kMargin = 12;
constexpr std::size_t kMostPanels = 9;
constexpr double kGap = 12;  ///< between panels
constexpr std::size_t kWhereLines = 2;
constexpr double kWhereLine = 14;   ///< of the words above a panel
constexpr double kHighestRow = 64;  ///< of one value of the upright key

/// How the panels lie on the page.
struct Sheet {
  std::size_t columns = 1, rows = 1;
  double left = 0, top = 0;      ///< of the first panel
  double width = 0, height = 0;  ///< of a panel
  double above = 0;              ///< words above each
  TextBox box(std::size_t k) const {
    const double x = left + static_cast<double>(k % columns) * (width + kGap);
    const double y =
        top + static_cast<double>(k / columns) * (height + kGap + above);
    return {x, y, x + width, y + height};
  }
};

TextStyle where_style() { return {.size = 12, .fill = colour::ink}; }

std::size_t columns_for(std::size_t panels) {
  return panels <= 1 ? 1 : panels == 2 || panels == 4 ? 2 : 3;
}

/// What stands above each panel, without what all of it begins with.
struct Heads {
  std::vector<std::string> words;
  std::string key;  ///< told once instead: "solution.conductivity"
  bool numbered = false;

  explicit Heads(const std::vector<SweepMap>& panels) {
    for (const SweepMap& panel : panels) words.push_back(panel.where);
    const std::string start = common_start(words);
    key = start.substr(0, start.rfind(" ="));
    for (std::string& head : words)
      head = clean_text(head.substr(start.size()));
  }

  /// Where one does not fit, all become numbers. @returns lines they take.
  std::size_t fit(double width) {
    std::size_t lines = 0;
    for (const std::string& head : words) {
      const auto own = wrapped_whole(head, where_style(), width, kWhereLines);
      if (own.empty() && !head.empty()) {
        numbered = true;
        break;
      }
      lines = std::max(lines, own.size());
    }
    if (!numbered) return lines;
    for (std::size_t k = 0; k < words.size(); ++k)
      words[k] = std::to_string(k + 1);
    return 1;
  }
};

Sheet sheet_for(const std::vector<SweepMap>& panels, Heads& heads, double top) {
  const SweptKey &x = panels[0].x, &y = panels[0].y;
  Sheet sheet;
  sheet.columns = columns_for(panels.size());
  sheet.rows = (panels.size() + sheet.columns - 1) / sheet.columns;
  const double most = sheet.columns == 1 ? 290 : sheet.columns == 2 ? 180 : 120;
  sheet.height =
      std::min(most, kHighestRow * static_cast<double>(y.values.size()));
  // What stands beside does not hang on where the panel lies.
  const SweepAxis beside(y, sheet.height, 0, SweepAxis::Form::cells);
  sheet.left = kMargin + std::max(24.0, beside.label_width() + 8);
  const auto count = static_cast<double>(sheet.columns);
  sheet.width =
      (narrow_width - kMargin - sheet.left - (count - 1) * kGap) / count;
  sheet.width = std::min(sheet.width, (sheet.columns == 1 ? 120 : 90) *
                                          static_cast<double>(x.values.size()));
  if (panels.size() > 1) {
    sheet.above = kWhereLine * static_cast<double>(heads.fit(sheet.width));
  }
  sheet.top = top + 28 + sheet.above;
  return sheet;
}

void draw_where(Svg& svg, const std::string& head, const TextBox& box) {
  const auto lines = wrapped(head, where_style(), box.width(), kWhereLines);
  if (lines.empty()) return;
  double y = box.top - 5 - kWhereLine * static_cast<double>(lines.size() - 1);
  for (const std::string& line : lines) {
    svg.text({box.left, y}, line, where_style());
    y += kWhereLine;
  }
}

std::string head_line(const SweptFigure& figure, const SweepMap& first,
                      const Heads& heads) {
  std::string line =
      fmt::format("{} over {} and {}", name_with_unit(figure.name, figure.unit),
                  first.x.name, first.y.name);
  if (heads.words.size() == 1 && !first.where.empty())
    line += "; " + first.where;
  if (!heads.key.empty()) line += ", a grid for each " + heads.key;
  return line + ".";
}

std::string best_words(const SweptFigure& figure, const SweepMap& panel,
                       std::size_t k, bool any_burns) {
  const std::size_t columns = panel.x.values.size();
  std::string words = fmt::format(
      "{}: {} at {}, {}", any_burns ? "best where nothing burns" : "best",
      with_unit(panel.values[k], figure.unit),
      setting_words(panel.x, k % columns), setting_words(panel.y, k / columns));
  if (!panel.where.empty()) words += "; " + panel.where;
  return words;
}

/// The values of points where nothing burns.
std::vector<double> sound_values(const SweepMap& panel) {
  std::vector<double> values = panel.values;
  for (std::size_t k = 0; k < values.size() && k < panel.burns.size(); ++k)
    if (panel.burns[k]) values[k] = std::numeric_limits<double>::quiet_NaN();
  return values;
}

bool burns_anywhere(const std::vector<SweepMap>& panels) {
  return std::any_of(panels.begin(), panels.end(), [](const SweepMap& panel) {
    return std::find(panel.burns.begin(), panel.burns.end(), true) !=
           panel.burns.end();
  });
}

/// Panel and place of the best point of all.
struct Best {
  std::size_t panel = 0, point = 0;
  bool found = false;
};

/// None where all are alike.
Best best_point(const SweptFigure& figure, const std::vector<SweepMap>& panels,
                const CellScale& scale) {
  Best best;
  std::vector<double> bests;
  std::vector<std::size_t> points;
  for (const SweepMap& panel : panels) {
    const std::size_t k = best_of(figure, sound_values(panel));
    points.push_back(k);
    bests.push_back(k < panel.values.size()
                        ? panel.values[k]
                        : std::numeric_limits<double>::quiet_NaN());
  }
  best.panel = best_of(figure, bests);
  best.found = !scale.alike && best.panel < panels.size();
  if (best.found) best.point = points[best.panel];
  return best;
}

std::vector<double> all_values(const std::vector<SweepMap>& panels) {
  std::vector<double> all;
  for (const SweepMap& panel : panels)
    all.insert(all.end(), panel.values.begin(), panel.values.end());
  return all;
}

}  // namespace

std::string sweep_map(const SweptFigure& figure,
                      const std::vector<SweepMap>& all,
                      const std::string& title) {
  const std::vector<SweepMap> panels(
      all.begin(), all.begin() + static_cast<std::ptrdiff_t>(
                                     std::min(kMostPanels, all.size())));
  Svg svg("sweep-map", narrow_width);
  if (panels.empty() || panels[0].x.values.empty() ||
      panels[0].y.values.empty()) {
    const double end = draw_head(svg, title, "No point was computed.");
    return svg.finish(end + 14, "Sweep: " + title, "No point was computed.");
  }
  const SweepMap& first = panels[0];
  Heads heads(panels);
  const double head = draw_head(svg, title, head_line(figure, first, heads));
  const Sheet sheet = sheet_for(panels, heads, head);
  const TextStyle name{.size = 12.5, .bold = true};
  svg.text({kMargin, head + 18},
           name_with_unit(first.y.name, first.y.unit, name,
                          narrow_width - 2 * kMargin),
           name);
  const CellScale scale = cell_scale(panels, sheet.columns);
  const Best best = best_point(figure, panels, scale);
  const std::vector<double> values = all_values(panels);
  const SweepAxis along(first.x, 0, sheet.width, SweepAxis::Form::cells);
  const SweepAxis upright(first.y, sheet.height, 0, SweepAxis::Form::cells);
  MapLook look{figure, scale, {}, numbers_fit(values, along, upright)};
  double bottom = 0;
  MapSeen seen;
  for (std::size_t k = 0; k < panels.size(); ++k) {
    const TextBox box = sheet.box(k);
    if (panels.size() > 1) draw_where(svg, heads.words[k], box);
    look.best = best.found && best.panel == k
                    ? std::optional<std::size_t>(best.point)
                    : std::nullopt;
    const SweepAxis x(first.x, box.left, box.right, SweepAxis::Form::cells);
    const SweepAxis y(first.y, box.bottom, box.top, SweepAxis::Form::cells);
    draw_map_panel(svg, panels[k], look, x, y, box, seen);
    if (k % sheet.columns == 0) y.draw_beside(svg, box.left);
    if (k + sheet.columns >= panels.size())
      bottom = std::max(bottom, x.draw_below(svg, box.bottom));
  }
  bottom =
      draw_name_below(svg, name_with_unit(first.x.name, first.x.unit),
                      sheet.left, sheet.box(sheet.columns - 1).right, bottom);
  LegendColumn column(svg, kMargin, bottom + 14, narrow_width - 2 * kMargin);
  draw_colour_scale(svg, column, figure, scale);
  if (figure.wanted) add_target_entry(svg, column, figure, values, seen);
  if (best.found)
    column.entry([&](Point c) { draw_best_sign(svg, c, seen.framed); },
                 best_words(figure, panels[best.panel], best.point,
                            burns_anywhere(panels)));
  add_map_notes(svg, column, scale, seen);
  if (panels.size() < all.size())
    column.entry([](Point) {},
                 "and " + more_words(all.size() - panels.size(), "grid") +
                     ", not drawn");
  if (heads.numbered) {
    column.gap(4);
    column.heading("Grids");
    for (std::size_t k = 0; k < panels.size(); ++k)
      column.entry([](Point) {}, fmt::format("{}: {}", k + 1, panels[k].where));
  }
  add_letter_entries(column, along, first.x.name);
  add_letter_entries(column, upright, first.y.name);
  std::string text =
      fmt::format("{} over {} and {}: {}.", figure.name, first.x.name,
                  first.y.name, range_words(figure, values));
  if (best.found)
    text += ' ' +
            best_words(figure, panels[best.panel], best.point,
                       burns_anywhere(panels)) +
            '.';
  return svg.finish(column.bottom() + 8, "Sweep: " + title, text);
}

}  // namespace thinspot::viz
