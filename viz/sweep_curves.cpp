#include "viz/sweep_curves.hpp"

#include "viz/label_placer.hpp"
#include "viz/palette.hpp"
#include "viz/picture_head.hpp"
#include "viz/sweep_legend.hpp"
#include "viz/sweep_plot.hpp"
#include "viz/sweep_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace thinspot::viz {

namespace {

constexpr double kMargin = 12, kHeight = 240;
constexpr std::size_t kMost = 8;
constexpr double kSigns = 22;     ///< least distance of a curve's signs
constexpr double kEndWidth = 92;  ///< of a name at a curve's end
constexpr double kFoot = 12;      ///< crosses above the panel's bottom

/// Signs differ for neighbours in shape and filling, colours in lightness.
struct CurveLook {
  const char* colour;
  const char* dash;
  int corners;  ///< of the sign; 0: a disc
  bool filled;
};

constexpr std::array<CurveLook, kMost> looks = {{
    {colour::heavy, "", 0, true},
    {"#c9721a", "7 3", 4, true},
    {colour::target, "2 3", 3, true},
    {colour::thin, "9 3 2 3", 5, true},
    {"#4b93bd", "", 4, false},
    {colour::lacquer, "4 3", 0, false},
    {"#7b7420", "1.5 2.5", 3, false},
    {colour::pale_ink, "9 3 2 3 2 3", 5, false},
}};

/// A triangle, a square, or (five) a diamond.
std::vector<Point> corners_of(int corners, Point c, double reach) {
  if (corners == 3)
    return {c + Point(0, -reach), c + Point(reach, 0.8 * reach),
            c + Point(-reach, 0.8 * reach)};
  if (corners == 4) {
    const double half = 0.8 * reach;
    return {c + Point(-half, -half), c + Point(half, -half),
            c + Point(half, half), c + Point(-half, half)};
  }
  return {c + Point(0, -1.2 * reach), c + Point(1.2 * reach, 0),
          c + Point(0, 1.2 * reach), c + Point(-1.2 * reach, 0)};
}

void draw_curve_sign(Svg& svg, const CurveLook& look, Point c,
                     const std::string& title = {}) {
  constexpr double reach = 4;
  const Paint paint{.fill = look.filled ? look.colour : "#ffffff",
                    .stroke = look.colour,
                    .width = 1.5,
                    .title = title};
  if (look.corners > 0) {
    svg.polygon(corners_of(look.corners, c, reach), paint);
    return;
  }
  PathText d;
  d.move(c - Point(reach, 0));
  d.arc(c + Point(reach, 0), reach, false, true);
  d.arc(c - Point(reach, 0), reach, false, true);
  d.close();
  svg.path(d, paint);
}

struct EndNames {
  std::vector<std::string> names;  ///< empty: no room for them
  double width = 0;
};

TextStyle end_style(std::size_t k) {
  return {.size = 12.5, .bold = true, .fill = looks[k].colour};
}

EndNames end_names(const std::vector<SweepCurve>& curves) {
  EndNames ends;
  std::vector<std::string> names;
  for (const SweepCurve& curve : curves) names.push_back(curve.name);
  const std::size_t start = common_start(names).size();
  for (std::size_t k = 0; k < curves.size(); ++k) {
    ends.names.push_back(clean_text(curves[k].name.substr(start)));
    ends.width =
        std::max(ends.width, text_width(ends.names.back(), end_style(k)));
  }
  if (ends.width > kEndWidth) return {};
  return ends;
}

struct Plot {
  const SweptFigure& figure;
  const SweptKey& key;
  SweepAxis along;
  AxisScale upright;
  TextBox box;
  bool results_at(const SweepCurve& curve, std::size_t k) const {
    return k < curve.values.size() && is_result(curve.values[k]);
  }
  Point page(const SweepCurve& curve, std::size_t k) const {
    return {along.page(k), upright.page(curve.values[k])};
  }
};

/// Stretches without a gap.
std::vector<std::vector<std::size_t>> stretches(const Plot& plot,
                                                const SweepCurve& curve) {
  std::vector<std::vector<std::size_t>> found;
  bool open = false;
  for (std::size_t k = 0; k < plot.key.values.size(); ++k) {
    const bool is = plot.results_at(curve, k);
    if (is && !open) found.emplace_back();
    if (is) found.back().push_back(k);
    open = is;
  }
  return found;
}

void draw_one(Svg& svg, const Plot& plot, const SweepCurve& curve,
              const CurveLook& look) {
  const bool words = !plot.key.words.empty();
  // Signs stand apart, but each stretch has one.
  const std::size_t last = plot.key.values.size() - 1;
  const double apart = std::abs(plot.along.page(last) - plot.along.page(0)) /
                       static_cast<double>(std::max<std::size_t>(1, last));
  const auto step = static_cast<std::size_t>(
      std::max(1.0, std::ceil(kSigns / std::max(apart, 1e-3))));
  PathText line;
  std::vector<std::size_t> signs;
  for (const auto& stretch : stretches(plot, curve)) {
    std::vector<Point> points;
    for (const std::size_t k : stretch) points.push_back(plot.page(curve, k));
    if (!words && points.size() > 1) line.chain(points, false);
    const std::size_t before = signs.size();
    for (const std::size_t k : stretch)
      if (words || k % step == 0) signs.push_back(k);
    if (signs.size() == before) signs.push_back(stretch[stretch.size() / 2]);
  }
  svg.path(line, {.stroke = look.colour, .width = 1.9, .dash = look.dash});
  for (const std::size_t k : signs)
    draw_curve_sign(
        svg, look, plot.page(curve, k),
        fmt::format("{}{} at {}", curve.name.empty() ? "" : curve.name + ": ",
                    with_unit(curve.values[k], plot.figure.unit),
                    setting_words(plot.key, k)));
}

/// Crosses where any curve has no result. @returns whether there is one.
bool draw_gaps(Svg& svg, const Plot& plot,
               const std::vector<SweepCurve>& curves) {
  std::vector<double> across;
  for (std::size_t k = 0; k < plot.key.values.size(); ++k)
    if (std::any_of(curves.begin(), curves.end(), [&](const SweepCurve& c) {
          return !plot.results_at(c, k);
        }))
      across.push_back(plot.along.page(k));
  draw_no_result(svg, across, plot.box.bottom - kFoot / 2);
  return !across.empty();
}

/// Names right of the panel, moved apart, with thin lines to the last points.
void draw_ends(Svg& svg, const Plot& plot,
               const std::vector<SweepCurve>& curves, const EndNames& ends) {
  std::vector<double> heights;
  std::vector<std::size_t> shown;
  std::vector<Point> last;
  for (std::size_t k = 0; k < curves.size(); ++k) {
    const auto pieces = stretches(plot, curves[k]);
    if (pieces.empty()) continue;
    shown.push_back(k);
    last.push_back(plot.page(curves[k], pieces.back().back()));
    heights.push_back(last.back().y());
  }
  const std::vector<double> apart =
      spread_apart(heights, 16, plot.box.top - 6, plot.box.bottom + 6);
  for (std::size_t j = 0; j < shown.size(); ++j) {
    const std::size_t k = shown[j];
    const double x = plot.box.right + 12;
    svg.line(last[j] + Point(6, 0), {x - 3, apart[j]},
             {.stroke = looks[k].colour, .width = 0.7});
    svg.text({x, apart[j] + 4.4}, ends.names[k], end_style(k));
  }
}

void add_curve_entries(Svg& svg, LegendColumn& column, const SweptKey& x,
                       const std::vector<SweepCurve>& curves) {
  for (std::size_t k = 0; k < curves.size(); ++k) {
    if (curves[k].name.empty()) continue;
    column.entry(
        [&](Point c) {
          if (x.words.empty())
            svg.line(c - Point(13, 0), c + Point(13, 0),
                     {.stroke = looks[k].colour,
                      .width = 1.9,
                      .dash = looks[k].dash});
          draw_curve_sign(svg, looks[k], c);
        },
        curves[k].name);
  }
}

std::string description(const SweptFigure& figure, const SweptKey& x,
                        const std::vector<SweepCurve>& curves) {
  std::string text = fmt::format("{} over {}:", figure.name, x.name);
  for (const SweepCurve& curve : curves)
    text += fmt::format(" {}{};", curve.name.empty() ? "" : curve.name + ": ",
                        range_words(figure, curve.values));
  text.back() = '.';
  return text;
}

}  // namespace

std::string sweep_curves(const SweptFigure& figure, const SweptKey& x,
                         const std::vector<SweepCurve>& all,
                         const std::string& title, const std::string& where) {
  Svg svg("sweep-curves", narrow_width);
  const std::vector<SweepCurve> curves(
      all.begin(),
      all.begin() + static_cast<std::ptrdiff_t>(std::min(kMost, all.size())));
  if (curves.empty() || x.values.empty()) {
    const double end = draw_head(svg, title, "No point was computed.");
    return svg.finish(end + 14, "Sweep: " + title, "No point was computed.");
  }
  std::string line = figure.name + " over " + x.name;
  if (!where.empty()) line += "; " + where;
  const double head = draw_head(svg, title, line + ".");
  std::vector<double> values;
  for (const SweepCurve& curve : curves)
    values.insert(values.end(), curve.values.begin(), curve.values.end());
  const std::vector<double> results = results_of(values);
  const EndNames ends = end_names(curves);
  TextBox box{0, head + 28, narrow_width - kMargin, head + 28 + kHeight};
  if (ends.width > 0) box.right -= ends.width + 14;
  AxisScale upright = figure_scale(figure, values, box);
  upright.from -= kFoot;  // crosses stand below all results
  box.left = kMargin + figure_numbers_width(upright) + 8;
  const Plot plot{figure, x,
                  SweepAxis(x, box.left, box.right, SweepAxis::Form::points),
                  upright, box};
  const TextStyle name{.size = 12.5, .bold = true};
  svg.text({kMargin, head + 16},
           name_with_unit(figure.name, figure.unit, name,
                          narrow_width - 2 * kMargin),
           name);
  if (!results.empty()) draw_figure_rules(svg, upright, box, true);
  draw_key_rules(svg, plot.along, box);
  if (!results.empty()) draw_target_line(svg, figure, upright, box);
  for (std::size_t k = curves.size(); k-- > 0;)
    draw_one(svg, plot, curves[k], looks[k]);
  const bool gaps = draw_gaps(svg, plot, curves);
  if (ends.width > 0) draw_ends(svg, plot, curves, ends);
  double bottom = plot.along.draw_below(svg, box.bottom);
  bottom = draw_name_below(svg, name_with_unit(x.name, x.unit), box.left,
                           box.right, bottom);
  LegendColumn column(svg, kMargin, bottom + 14, narrow_width - 2 * kMargin);
  add_curve_entries(svg, column, x, curves);
  if (results.empty())
    column.entry([](Point) {}, "no point has a result");
  else
    add_target_line_entry(svg, column, figure, upright);
  if (gaps)
    column.entry([&](Point c) { draw_no_result(svg, {c.x()}, c.y()); },
                 curves.size() > 1 ? "no result for one or more of the curves"
                                   : "no result");
  if (curves.size() < all.size())
    column.entry([](Point) {},
                 "and " + more_words(all.size() - curves.size(), "curve") +
                     ", not drawn");
  add_letter_entries(column, plot.along, x.name);
  return svg.finish(column.bottom() + 8, "Sweep: " + title,
                    description(figure, x, curves));
}

}  // namespace thinspot::viz
