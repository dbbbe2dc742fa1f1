#include "viz/sweep_scatter.hpp"

#include "viz/binned.hpp"
#include "viz/palette.hpp"
#include "viz/picture_head.hpp"
#include "viz/sweep_legend.hpp"
#include "viz/sweep_plot.hpp"
#include "viz/sweep_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace thinspot::viz {

namespace {

constexpr double kMargin = 12, kGap = 14;
constexpr double kHeight = 118, kAloneHeight = 220;
constexpr double kAbove = 37;  ///< name and share above a panel
constexpr double kFoot = 12;   ///< room of the crosses
constexpr std::size_t kMostKeys = 8, kMostDots = 1500, kSparse = 300,
                      kMostCrosses = 60;
constexpr std::size_t kCurveFrom = 3;  ///< bins that make a line

/// A key with what its points tell.
struct Told {
  SweptKey key;  ///< values: from the least to the largest, or all words
  const std::vector<double>* at = nullptr;
  std::vector<Bin> bins;
  std::optional<double> share;
};

std::vector<Told> told_by(const std::vector<SweptKey>& keys,
                          const std::vector<std::vector<double>>& at,
                          const std::vector<double>& values) {
  std::vector<Told> all;
  for (std::size_t k = 0; k < std::min(keys.size(), at.size()); ++k) {
    const std::vector<double> set = results_of(at[k]);
    if (set.empty()) continue;
    Told told{keys[k], &at[k], binned(at[k], values), {}};
    told.share = explained_share(told.bins);
    told.key.values.clear();
    if (told.key.words.empty()) {
      const auto [least, most] = std::minmax_element(set.begin(), set.end());
      told.key.values = {*least};
      if (*most > *least) told.key.values.push_back(*most);
    } else {
      for (std::size_t w = 0; w < told.key.words.size(); ++w)
        told.key.values.push_back(static_cast<double>(w));
    }
    all.push_back(std::move(told));
  }
  std::stable_sort(all.begin(), all.end(), [](const Told& a, const Told& b) {
    return a.share.value_or(-1) > b.share.value_or(-1);
  });
  return all;
}

std::string share_words(const Told& told) {
  if (!told.share) return "no share can be told";
  const double percent = 100 * *told.share;
  return percent < 1 ? "explains under 1 %"
                     : fmt::format("explains {:.0f} %", percent);
}

/// Indices of at most so many points, evenly picked.
std::vector<std::size_t> picked(std::size_t count, std::size_t most) {
  std::vector<std::size_t> shown;
  const std::size_t drawn = std::min(count, most);
  for (std::size_t k = 0; k < drawn; ++k) shown.push_back(k * count / drawn);
  return shown;
}

struct Picked {
  std::vector<std::size_t> dots, crosses;
};

Picked picked_points(const std::vector<double>& values) {
  std::vector<std::size_t> with, without;
  for (std::size_t k = 0; k < values.size(); ++k)
    (is_result(values[k]) ? with : without).push_back(k);
  Picked chosen;
  for (const std::size_t k : picked(with.size(), kMostDots))
    chosen.dots.push_back(with[k]);
  for (const std::size_t k : picked(without.size(), kMostCrosses))
    chosen.crosses.push_back(without[k]);
  return chosen;
}

Paint dot_paint(std::size_t dots) {
  return {.stroke = colour::other_result,
          .width = dots > kSparse ? 2.2 : 3.8,
          .opacity = dots > kSparse ? 0.5 : 0.75,
          .round = true};
}

void draw_dots(Svg& svg, const Told& told, const std::vector<double>& values,
               const Picked& chosen, const SweepAxis& x, const AxisScale& y,
               const TextBox& box) {
  const auto known = [&](std::size_t k) {
    return k < told.at->size() && is_result((*told.at)[k]);
  };
  // Points of one word are spread sideways, each always to the same place.
  const double spread = told.key.words.empty() ? 0 : 0.5 * x.cell_size();
  const auto across_of = [&](std::size_t k) {
    const double lot = std::fmod(0.618034 * static_cast<double>(k), 1.0);
    return x.page_of((*told.at)[k]) + spread * (lot - 0.5);
  };
  PathText dots;
  for (const std::size_t k : chosen.dots)
    if (known(k)) dots.dot({across_of(k), y.page(values[k])});
  svg.path(dots, dot_paint(chosen.dots.size()));
  std::vector<double> across;
  for (const std::size_t k : chosen.crosses)
    if (known(k)) across.push_back(across_of(k));
  draw_no_result(svg, across, box.bottom - kFoot / 2);
}

/// A line through the medians, over words a stroke for each.
/// @returns whether there are any.
bool draw_medians(Svg& svg, const Told& told, const SweepAxis& x,
                  const AxisScale& y) {
  PathText d;
  std::vector<Point> line;
  for (const Bin& bin : told.bins) {
    const Point p(x.page_of(bin.middle), y.page(bin.median()));
    const double half = std::min(14.0, 0.35 * x.cell_size());
    if (!told.key.words.empty())
      d.chain({p - Point(half, 0), p + Point(half, 0)}, false);
    line.push_back(p);
  }
  if (told.key.words.empty() && line.size() >= kCurveFrom) d.chain(line, false);
  svg.path(d, {.stroke = "#ffffff", .width = 4.4, .round = true});
  svg.path(d, {.stroke = colour::coating_edge, .width = 2.2, .round = true});
  return !d.empty();
}

void draw_name(Svg& svg, const Told& told, const TextBox& box, double left) {
  const TextStyle bold{.size = 12.5, .bold = true};
  const TextStyle small{.size = 12, .fill = colour::pale_ink};
  const double room = box.right - left;
  svg.text({left, box.top - 23},
           name_with_unit(told.key.name, told.key.unit, bold, room), bold);
  if (!told.bins.empty())
    svg.text({left, box.top - 9}, share_words(told), small);
}

void add_entries(Svg& svg, LegendColumn& column, const SweptFigure& figure,
                 const std::vector<double>& values, const Picked& chosen,
                 const AxisScale& upright, bool medians) {
  const std::size_t results = results_of(values).size();
  std::string dots = "a point";
  if (chosen.dots.size() < results)
    dots = fmt::format("a point; {} of {} are drawn, evenly picked",
                       chosen.dots.size(), results);
  column.entry(
      [&](Point c) {
        PathText d;
        d.dot(c);
        Paint paint = dot_paint(chosen.dots.size());
        paint.width = 3.8;
        svg.path(d, paint);
      },
      dots);
  if (medians)
    column.entry(
        [&](Point c) {
          svg.line(c - Point(12, 0), c + Point(12, 0),
                   {.stroke = colour::coating_edge, .width = 2.2});
        },
        "median of all points near that setting");
  add_target_line_entry(svg, column, figure, upright);
  if (!chosen.crosses.empty())
    column.entry([&](Point c) { draw_no_result(svg, {c.x()}, c.y()); },
                 fmt::format("no result: {} of {} points",
                             values.size() - results, values.size()));
  column.entry([](Point) {},
               "\"explains\": share of the figure's variance that a key tells "
               "by itself; what keys do only together is in none of them");
}

std::string description(const SweptFigure& figure, const std::vector<Told>& all,
                        const std::vector<double>& values) {
  std::string text = fmt::format(
      "{} of {} samples: {}. Keys by what they explain alone:", figure.name,
      values.size(), range_words(figure, values));
  for (const Told& told : all)
    text += fmt::format(" {} {};", told.key.name, share_words(told));
  text.back() = '.';
  return text;
}

}  // namespace

std::string sweep_scatter(const SweptFigure& figure,
                          const std::vector<SweptKey>& keys,
                          const std::vector<std::vector<double>>& at,
                          const std::vector<double>& values,
                          const std::string& title) {
  Svg svg("sweep-scatter", narrow_width);
  std::vector<Told> all = told_by(keys, at, values);
  if (all.empty() || values.empty()) {
    const double end = draw_head(svg, title, "No point was computed.");
    return svg.finish(end + 14, "Sweep: " + title, "No point was computed.");
  }
  const std::size_t known = all.size();
  if (all.size() > kMostKeys) all.erase(all.begin() + kMostKeys, all.end());
  const double head = draw_head(
      svg, title,
      fmt::format("{} against each key; what explains most comes first.",
                  name_with_unit(figure.name, figure.unit)));
  const bool any = !results_of(values).empty();
  const bool alone = all.size() == 1;
  const double height = alone ? kAloneHeight : kHeight;
  AxisScale upright = figure_scale(figure, values, {0, 0, 1, height - kFoot});
  const double left = kMargin + (any ? figure_numbers_width(upright) : 0) + 8;
  const double width = alone ? narrow_width - kMargin - left
                             : (narrow_width - kMargin - kGap - left) / 2;
  const Picked chosen = picked_points(values);
  double top = head + 6 + kAbove;
  double bottom = top;
  bool medians = false;
  for (std::size_t k = 0; k < all.size(); ++k) {
    const bool second = k % 2 == 1;
    if (!second && k > 0) top = bottom + kAbove + 8;
    const double from = second ? left + width + kGap : left;
    const TextBox box{from, top, from + width, top + height};
    AxisScale y = upright;
    y.from += top;
    y.to += top;
    const SweepAxis x(all[k].key, box.left, box.right, SweepAxis::Form::points);
    draw_name(svg, all[k], box, second ? from : kMargin);
    if (any) draw_figure_rules(svg, y, box, !second);
    draw_key_rules(svg, x, box);
    if (any) draw_target_line(svg, figure, y, box);
    draw_dots(svg, all[k], values, chosen, x, y, box);
    medians = draw_medians(svg, all[k], x, y) || medians;
    const double end = x.draw_below(svg, box.bottom);
    bottom = second ? std::max(bottom, end) : end;
  }
  LegendColumn column(svg, kMargin, bottom + 12, narrow_width - 2 * kMargin);
  if (any)
    add_entries(svg, column, figure, values, chosen, upright, medians);
  else
    column.entry([](Point) {}, "no point has a result");
  if (all.size() < known)
    column.entry([](Point) {}, "and " + more_words(known - all.size(), "key") +
                                   ", not drawn");
  for (const Told& told : all)
    add_letter_entries(column,
                       SweepAxis(told.key, 0, width, SweepAxis::Form::points),
                       told.key.name);
  return svg.finish(column.bottom() + 8, "Sweep: " + title,
                    description(figure, all, values));
}

}  // namespace thinspot::viz
