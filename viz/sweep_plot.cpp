#include "viz/sweep_plot.hpp"

#include "viz/label_placer.hpp"
#include "viz/palette.hpp"
#include "viz/sweep_words.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::viz {

namespace {

constexpr double kFar = 20;      ///< times: by factor beyond it
constexpr double kTargetTo = 3;  ///< times the span of the results
constexpr double kPerNumber = 34;

bool shows_target(const SweptFigure& figure, const AxisScale& scale) {
  return figure.wanted && *figure.wanted >= scale.low &&
         *figure.wanted <= scale.high;
}

Paint target_line() {
  return {.stroke = colour::target, .width = 1.6, .dash = "6 3"};
}

std::vector<Tick> numbers_of(const AxisScale& scale) {
  const double room = std::abs(scale.to - scale.from);
  return scale.numbers(std::max(2, static_cast<int>(room / kPerNumber)));
}

TextStyle number_style() {
  return {.size = 12.5, .anchor = Anchor::end, .fill = colour::pale_ink};
}

}  // namespace

AxisScale figure_scale(const SweptFigure& figure,
                       const std::vector<double>& values, const TextBox& box) {
  std::vector<double> shown = results_of(values);
  const AxisScale own = around_any(shown, box.bottom, box.top, kFar);
  if (shown.empty() || !figure.wanted || !is_result(*figure.wanted)) return own;
  shown.push_back(*figure.wanted);
  const AxisScale both = around_any(shown, box.bottom, box.top, kFar);
  const double before = own.high - own.low, after = both.high - both.low;
  return after <= kTargetTo * before ? both : own;
}

double figure_numbers_width(const AxisScale& scale) {
  double widest = 0;
  for (const Tick& t : numbers_of(scale))
    widest = std::max(widest, text_width(axis_number(t), number_style()));
  return widest;
}

void draw_figure_rules(Svg& svg, const AxisScale& scale, const TextBox& box,
                       bool numbers) {
  LabelPlacer placer({0, box.top - 9, box.left, box.bottom + 12});
  for (const Tick& t : numbers_of(scale)) {
    const double y = scale.page(t.value);
    svg.line({box.left, y}, {box.right, y}, {.stroke = colour::grid});
    const Point at(box.left - 6, y + 4.4);
    if (numbers && placer.take(text_box(at, axis_number(t), number_style())))
      svg.text(at, axis_number(t), number_style());
  }
}

void draw_key_rules(Svg& svg, const SweepAxis& axis, const TextBox& box) {
  for (const Tick& t : axis.marks())
    svg.line({t.value, box.top}, {t.value, box.bottom},
             {.stroke = colour::grid});
  svg.rect(box, {.stroke = colour::pale_ink, .width = 0.8});
}

void draw_target_line(Svg& svg, const SweptFigure& figure,
                      const AxisScale& scale, const TextBox& box) {
  if (!shows_target(figure, scale)) return;
  const double y = scale.page(*figure.wanted);
  svg.line({box.left, y}, {box.right, y}, target_line());
}

void add_target_line_entry(Svg& svg, LegendColumn& column,
                           const SweptFigure& figure, const AxisScale& scale) {
  if (!figure.wanted) return;
  if (!is_result(*figure.wanted)) return;
  if (shows_target(figure, scale)) {
    column.entry(
        [&](Point c) {
          svg.line(c - Point(12, 0), c + Point(12, 0), target_line());
        },
        target_words(figure));
    return;
  }
  column.entry([](Point) {},
               target_words(figure) + (*figure.wanted > scale.high
                                           ? "; above all that is drawn"
                                           : "; below all that is drawn"));
}

void draw_no_result(Svg& svg, const std::vector<double>& across,
                    double height) {
  PathText d;
  for (const double x : across) {
    d.chain({{x - 2.6, height - 2.6}, {x + 2.6, height + 2.6}}, false);
    d.chain({{x - 2.6, height + 2.6}, {x + 2.6, height - 2.6}}, false);
  }
  svg.path(d, {.stroke = colour::pale_ink, .width = 1.1});
}

}  // namespace thinspot::viz
