#include "viz/sweep_legend.hpp"

#include "mesh/digits.hpp"
#include "viz/label_placer.hpp"
#include "viz/palette.hpp"
#include "viz/solid_legend.hpp"
#include "viz/sweep_words.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::viz {

namespace {

constexpr int kSteps = 64;  ///< of the bar
constexpr double kBarWidth = 300, kBarHeight = 12;

void draw_bar(Svg& svg, const SweptFigure& figure, const CellScale& scale,
              const TextBox& bar) {
  AxisScale along = scale.share;
  along.from = bar.left;
  along.to = bar.right;
  for (int k = 0; k < kSteps; ++k) {
    PathText d;
    const auto at = [&](int step) {
      return bar.left + bar.width() * step / kSteps;
    };
    d.box({at(k), bar.top, at(k + 1), bar.bottom});
    svg.path(d, {.fill = hex(ramp((k + 0.5) / kSteps)), .crisp = true});
  }
  svg.rect(bar, {.stroke = colour::pale_ink, .width = 0.8});
  const TextStyle number{
      .size = 12, .anchor = Anchor::middle, .fill = colour::pale_ink};
  LabelPlacer placer({2, bar.bottom, svg.width() - 2, bar.bottom + 24});
  std::vector<Tick> numbers = along.numbers(5);
  if (numbers.size() < 2)
    numbers = {{along.low, digits(along.low)},
               {along.high, digits(along.high)}};
  for (const Tick& t : numbers) {
    const double x = along.page(t.value);
    if (!placer.take(
            text_box({x, bar.bottom + 16}, axis_number(t), number).grown(3)))
      continue;
    svg.line({x, bar.bottom}, {x, bar.bottom + 4},
             {.stroke = colour::pale_ink});
    svg.text({x, bar.bottom + 16}, axis_number(t), number);
  }
  if (!figure.wanted || *figure.wanted < along.low ||
      *figure.wanted > along.high)
    return;
  const double x = along.page(*figure.wanted);
  svg.polygon({{x, bar.top}, {x - 4.5, bar.top - 7}, {x + 4.5, bar.top - 7}},
              {.fill = colour::ink});
  TextStyle word{.size = 12};
  const bool left = x + 60 > svg.width();
  if (left) word.anchor = Anchor::end;
  svg.text({x + (left ? -8 : 8), bar.top - 3}, "target", word);
}

}  // namespace

void draw_colour_scale(Svg& svg, LegendColumn& column,
                       const SweptFigure& figure, const CellScale& scale) {
  column.heading(name_with_unit(figure.name, figure.unit));
  if (!scale.any) {
    column.entry([](Point) {}, "no point has a result");
    return;
  }
  if (scale.alike) {
    const double value = 0.5 * (scale.share.low + scale.share.high);
    column.entry(
        [&](Point c) {
          svg.rect(swatch(c),
                   {.fill = scale.colour(value), .stroke = colour::pale_ink});
        },
        "all alike: " + with_unit(value, figure.unit));
    return;
  }
  const bool marked = figure.wanted && *figure.wanted >= scale.share.low &&
                      *figure.wanted <= scale.share.high;
  if (marked) column.gap(11);
  const TextBox room = column.room(kBarHeight + 24);
  draw_bar(svg, figure, scale,
           {room.left + 8, room.top, room.left + 8 + kBarWidth,
            room.top + kBarHeight});
}

void add_target_entry(Svg& svg, LegendColumn& column, const SweptFigure& figure,
                      const std::vector<double>& values, const MapSeen& seen) {
  const std::string target = target_words(figure);
  const std::vector<double> results = results_of(values);
  if (figure.better == Better::neither) {
    column.entry([](Point) {}, target);
    return;
  }
  const auto met = static_cast<std::size_t>(
      std::count_if(results.begin(), results.end(),
                    [&](double v) { return meets(figure, v); }));
  if (seen.border) {
    column.entry(
        [&](Point c) {
          BorderLine line;
          line.add(c + Point(-12, 2), c + Point(12, 2), {0, -1});
          line.draw(svg);
        },
        target + fmt::format(", met on the side of the ticks; {} of {} points "
                             "meet it",
                             met, results.size()));
    return;
  }
  if (results.empty()) return;
  if (seen.scattered) {
    column.entry([](Point) {},
                 target + fmt::format("; met by {} of {} points, too scattered "
                                      "for a border",
                                      met, results.size()));
    return;
  }
  column.entry([](Point) {},
               target + (met == results.size() ? "; met by all points"
                         : met == 0            ? "; met by no point"
                                    : fmt::format("; met by {} of {} points",
                                                  met, results.size())));
}

void draw_best_sign(Svg& svg, Point centre, bool framed) {
  if (framed)
    draw_best_frame(svg, swatch(centre).grown(1));
  else
    draw_best_star(svg, centre);
}

void add_map_notes(Svg& svg, LegendColumn& column, const CellScale& scale,
                   const MapSeen& seen) {
  if (seen.hatched)
    column.entry(
        [&](Point c) {
          svg.rect(swatch(c),
                   {.fill = no_result_fill(svg), .stroke = colour::pale_ink});
        },
        "no result");
  if (scale.across > 1 || scale.down > 1)
    column.entry([](Point) {},
                 fmt::format("each cell is the mean of up to {} \u00D7 {} "
                             "points that have a result",
                             scale.across, scale.down));
}

void add_letter_entries(LegendColumn& column, const SweepAxis& axis,
                        const std::string& name) {
  if (!axis.lettered()) return;
  column.gap(4);
  column.heading(name);
  for (const std::string& line : axis.letter_words())
    column.entry([](Point) {}, line);
}

}  // namespace thinspot::viz
