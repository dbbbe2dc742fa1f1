#include "viz/sweep_panel.hpp"

#include "mesh/digits.hpp"
#include "viz/palette.hpp"
#include "viz/plan_marks.hpp"
#include "viz/sweep_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace thinspot::viz {

namespace {

constexpr std::size_t kMostCells = 120;  ///< a side of a single panel
constexpr std::size_t kFew = 900;        ///< cells that each have a title
constexpr double kFar = 20;      ///< times: colours go by factor beyond it
constexpr double kAlike = 1e-6;  ///< of the size: no difference to show
constexpr int kShades = 160;     ///< that a picture of many cells has
constexpr std::size_t kScattered = 6;  ///< runs of borders a row and column
constexpr double kBorder = 2;          ///< width of the line
constexpr double kTick = 4.5, kTicksApart = 13;
constexpr double kFrameCell = 15;  ///< least side of a cell that gets a frame

/// Halves and quarters of it, as the panels get smaller.
std::size_t most_cells(std::size_t beside) { return kMostCells / beside; }

TextBox cell_box(const CellRun& run, const CellGrid& grid, const SweepAxis& x,
                 const SweepAxis& y, const SweepMap& panel) {
  const auto first = [](std::size_t cell, std::size_t points, std::size_t all) {
    return std::min(cell * points, all);
  };
  const std::size_t nx = panel.x.values.size(), ny = panel.y.values.size();
  return {x.edge(first(run.from, grid.across, nx)),
          y.edge(first(run.row + 1, grid.down, ny)),
          x.edge(first(run.to, grid.across, nx)),
          y.edge(first(run.row, grid.down, ny))};
}

TextStyle number_style() { return {.size = 12, .anchor = Anchor::middle}; }

std::string point_words(const SweptFigure& figure, const SweepMap& panel,
                        std::size_t column, std::size_t row, double value) {
  return fmt::format(
      "{} at {}, {}",
      is_result(value) ? with_unit(value, figure.unit) : "no result",
      setting_words(panel.x, column), setting_words(panel.y, row));
}

/// Each cell with a title, or all of one colour at once.
void draw_cells(Svg& svg, const SweepMap& panel, const MapLook& look,
                const CellGrid& grid, const SweepAxis& x, const SweepAxis& y,
                MapSeen& seen) {
  const CellScale& scale = look.scale;
  const std::string hatched = no_result_fill(svg);
  const auto shade = [&](double value) {
    if (!is_result(value)) return -1;
    return static_cast<int>(std::lround(scale.share.page(value) * kShades));
  };
  std::map<int, PathText> shades;
  for (const CellRun& run : runs_of(grid, shade, !scale.few)) {
    const double value = grid.at(run.from, run.row);
    seen.hatched = seen.hatched || run.look < 0;
    const TextBox box = cell_box(run, grid, x, y, panel);
    if (!scale.few) {
      shades[run.look].box(box);
      continue;
    }
    PathText d;
    d.box(box);
    svg.path(
        d, {.fill = run.look < 0 ? hatched : scale.colour(value),
            .title = point_words(look.figure, panel, run.from, run.row, value),
            .crisp = true});
  }
  for (const auto& [index, d] : shades)
    svg.path(
        d, {.fill = index < 0 ? hatched
                              : hex(ramp(static_cast<double>(index) / kShades)),
            .crisp = true});
}

void draw_borders(Svg& svg, const SweepMap& panel, const MapLook& look,
                  const CellGrid& grid, const SweepAxis& x, const SweepAxis& y,
                  MapSeen& seen) {
  const auto met = [&](double value) { return meets(look.figure, value); };
  const auto column = [&](std::size_t k) {
    return x.edge(std::min(k * grid.across, panel.x.values.size()));
  };
  const auto row = [&](std::size_t k) {
    return y.edge(std::min(k * grid.down, panel.y.values.size()));
  };
  const std::vector<CellBorder> borders = borders_of(grid, met);
  if (borders.size() > kScattered * (grid.columns + grid.rows)) {
    seen.scattered = true;
    return;
  }
  seen.border = seen.border || !borders.empty();
  BorderLine line;
  for (const CellBorder& b : borders) {
    const double way = b.met_beyond ? 1 : -1;
    if (b.upright)
      line.add({column(b.line), row(b.from)}, {column(b.line), row(b.to)},
               {way, 0});
    else
      line.add({column(b.from), row(b.line)}, {column(b.to), row(b.line)},
               {0, -way});
  }
  line.draw(svg);
}

void draw_numbers(Svg& svg, const SweepMap& panel, const MapLook& look,
                  const SweepAxis& x, const SweepAxis& y) {
  const std::size_t columns = panel.x.values.size();
  for (std::size_t k = 0; k < panel.values.size(); ++k) {
    const double value = panel.values[k];
    if (!is_result(value) || k / columns >= panel.y.values.size()) continue;
    TextStyle own = number_style();
    const double share = look.scale.share.page(value);
    own.fill = luminance(ramp(share)) > 0.3 ? colour::ink : "#ffffff";
    svg.text({x.page(k % columns), y.page(k / columns) + 4.4}, digits(value),
             own);
  }
}

void draw_best(Svg& svg, const SweepMap& panel, std::size_t point,
               const SweepAxis& x, const SweepAxis& y, MapSeen& seen) {
  const std::size_t column = point % panel.x.values.size();
  const std::size_t row = point / panel.x.values.size();
  seen.framed = std::min(x.cell_size(), y.cell_size()) >= kFrameCell;
  if (seen.framed)
    draw_best_frame(svg, {x.edge(column), y.edge(row + 1), x.edge(column + 1),
                          y.edge(row)});
  else
    draw_best_star(svg, {x.page(column), y.page(row)});
}

}  // namespace

std::string CellScale::colour(double value) const {
  return hex(ramp(share.page(value)));
}

CellScale cell_scale(const std::vector<SweepMap>& panels, std::size_t beside) {
  CellScale scale;
  scale.most = most_cells(beside);
  std::vector<double> shown;
  std::size_t cells = 0;
  for (const SweepMap& panel : panels) {
    const CellGrid grid = cells_of(panel.x.values.size(), panel.y.values.size(),
                                   panel.values, scale.most);
    scale.across = std::max(scale.across, grid.across);
    scale.down = std::max(scale.down, grid.down);
    cells += grid.values.size();
    for (const double value : results_of(grid.values)) shown.push_back(value);
  }
  scale.few = cells <= kFew && scale.across == 1 && scale.down == 1;
  scale.any = !shown.empty();
  if (!scale.any) return scale;
  const auto [least, most] = std::minmax_element(shown.begin(), shown.end());
  const double size = std::max(std::abs(*least), std::abs(*most));
  scale.alike = *most - *least <= kAlike * size;
  // One value alone has the colour in the middle.
  const double half = size > 0 ? 0.5 * size : 0.5;
  scale.share = scale.alike ? AxisScale{*least - half, *least + half, 0, 1}
                            : AxisScale{*least, *most, 0, 1};
  scale.share.by_factor = !scale.alike && *least > 0 && *most > kFar * *least;
  return scale;
}

bool numbers_fit(const std::vector<double>& values, const SweepAxis& x,
                 const SweepAxis& y) {
  constexpr double beside = 8, line = 20;
  if (y.cell_size() < line || x.cell_size() < beside) return false;
  double widest = 0;
  for (const double value : results_of(values))
    widest = std::max(widest, text_width(digits(value), number_style()));
  return widest + beside <= x.cell_size();
}

void draw_map_panel(Svg& svg, const SweepMap& panel, const MapLook& look,
                    const SweepAxis& x, const SweepAxis& y, const TextBox& box,
                    MapSeen& seen) {
  const CellGrid grid = cells_of(panel.x.values.size(), panel.y.values.size(),
                                 panel.values, look.scale.most);
  draw_cells(svg, panel, look, grid, x, y, seen);
  svg.rect(box, {.stroke = colour::pale_ink, .width = 0.8});
  if (look.figure.wanted && look.figure.better != Better::neither)
    draw_borders(svg, panel, look, grid, x, y, seen);
  if (look.numbers) draw_numbers(svg, panel, look, x, y);
  if (look.best) draw_best(svg, panel, *look.best, x, y, seen);
}

std::string no_result_fill(Svg& svg) {
  return svg.hatch(colour::not_judged, 4);
}

void draw_best_frame(Svg& svg, const TextBox& cell) {
  svg.rect(cell.grown(-1.2), {.stroke = "#ffffff", .width = 4.4});
  svg.rect(cell.grown(-1.2), {.stroke = colour::thin, .width = 2.4});
}

void draw_best_star(Svg& svg, Point centre) {
  svg.circle(centre, 9, {.fill = "#ffffff", .stroke = colour::ink});
  draw_plan_sign(svg, PlanRole::recommended, centre);
}

void BorderLine::add(Point from, Point to, Point beyond) {
  const double length = (to - from).norm();
  if (length <= 0) return;
  // Longer by half its width, so that corners are whole.
  const Point along = (to - from) / length, more = kBorder / 2 * along;
  line_.chain({from - more, to + more}, false);
  if (length < 0.5 * kTicksApart) return;
  const int count = std::max(1, static_cast<int>(length / kTicksApart));
  for (int k = 0; k < count; ++k) {
    const Point foot = from + (k + 0.5) / count * (to - from);
    ticks_.chain({foot, foot + kTick * beyond}, false);
  }
}

void BorderLine::draw(Svg& svg) const {
  svg.path(line_, {.stroke = "#ffffff", .width = kBorder + 1.6});
  svg.path(ticks_, {.stroke = "#ffffff", .width = 3});
  svg.path(line_, {.stroke = colour::ink, .width = kBorder});
  svg.path(ticks_, {.stroke = colour::ink, .width = 1.6});
}

}  // namespace thinspot::viz
