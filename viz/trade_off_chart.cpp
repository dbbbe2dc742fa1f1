#include "viz/trade_off_chart.hpp"

#include "mesh/digits.hpp"
#include "viz/axis_scale.hpp"
#include "viz/label_placer.hpp"
#include "viz/legend_column.hpp"
#include "viz/numbers.hpp"
#include "viz/palette.hpp"
#include "viz/panel_labels.hpp"
#include "viz/picture_head.hpp"
#include "viz/plan_marks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::viz {

namespace {

constexpr double kLeft = 48, kRight = narrow_width - 14;
constexpr double kHeight = 230;  ///< of the panel
constexpr double kFarTimes = 8, kFarRatios = 5;
constexpr std::size_t kMany = 60;  ///< points that no longer stand apart

struct Spot {
  double minutes = 0, evenness = 0;
  bool shown() const {
    return std::isfinite(minutes) && minutes > 0 && std::isfinite(evenness) &&
           evenness >= 1 - 1e-9;
  }
};

Spot spot_of(const solver::SetUp& s) {
  return {s.figures.bench / 60, s.figures.evenness};
}

Spot spot_of(const solver::TradeOff& t) { return {t.bench / 60, t.evenness}; }

std::string turned(int turns) {
  return turns == 0   ? "not handled"
         : turns == 1 ? "handled once"
                      : fmt::format("handled {} times", turns);
}

/// "46 min, largest over least 1.41, 0.33 A, handled once".
std::string in_words(const Spot& spot, double current, int turns) {
  return fmt::format("{} min, largest over least {}, {} A, {}",
                     digits(spot.minutes), digits(spot.evenness),
                     digits(current), turned(turns));
}

/// All that the panel has to show.
std::vector<Spot> all_spots(const solver::Plan& plan) {
  std::vector<Spot> spots;
  const auto take = [&](const Spot& spot) {
    if (spot.shown()) spots.push_back(spot);
  };
  for (const solver::TradeOff& t : plan.trade_off) take(spot_of(t));
  for (const PlanMark& mark : plan_marks(plan)) take(spot_of(*mark.set_up));
  return spots;
}

struct Panel {
  TextBox box;
  AxisScale time, evenness;
  Point page(const Spot& spot) const {
    return {time.page(spot.minutes), evenness.page(spot.evenness)};
  }
};

Panel panel_at(double top, const std::vector<Spot>& spots) {
  std::vector<double> minutes, ratios;
  for (const Spot& spot : spots) {
    minutes.push_back(spot.minutes);
    ratios.push_back(spot.evenness);
  }
  const TextBox box{kLeft, top, kRight, top + kHeight};
  return {box, around(minutes, box.left, box.right, kFarTimes),
          up_from(1, ratios, box.bottom, box.top, kFarRatios)};
}

void draw_axes(Svg& svg, const Panel& panel) {
  const TextBox& box = panel.box;
  const Paint rule{.stroke = colour::grid};
  const TextStyle name{.size = 12.5, .bold = true};
  TextStyle number{
      .size = 12.5, .anchor = Anchor::end, .fill = colour::pale_ink};
  svg.text({12, box.top - 10}, "Largest over least thickness (1: even)", name);
  LabelPlacer upright({0, box.top - 9, kLeft, box.bottom + 12});
  for (const Tick& t : panel.evenness.numbers(6)) {
    const double y = panel.evenness.page(t.value);
    svg.line({box.left, y}, {box.right, y}, rule);
    if (upright.take(text_box({box.left - 6, y + 4}, t.label, number)))
      svg.text({box.left - 6, y + 4}, t.label, number);
  }
  number.anchor = Anchor::middle;
  LabelPlacer level({0, box.bottom, narrow_width, box.bottom + 26});
  for (const Tick& t : panel.time.numbers(6)) {
    const double x = panel.time.page(t.value);
    svg.line({x, box.top}, {x, box.bottom}, rule);
    if (level.take(text_box({x, box.bottom + 17}, t.label, number).grown(5)))
      svg.text({x, box.bottom + 17}, t.label, number);
  }
  svg.rect(box, {.stroke = colour::pale_ink, .width = 0.8});
  TextStyle below = name;
  below.anchor = Anchor::middle;
  svg.text({0.5 * (box.left + box.right), box.bottom + 36},
           "Time at the bench (min)", below);
}

void draw_disc(Svg& svg, Point centre, double radius,
               const std::string& title) {
  PathText d;
  d.move(centre - Point(radius, 0));
  d.arc(centre + Point(radius, 0), radius, false, true);
  d.arc(centre - Point(radius, 0), radius, false, true);
  d.close();
  svg.path(d, {.fill = colour::coating,
               .stroke = colour::coating_edge,
               .width = 0.8,
               .title = title});
}

void draw_curve(Svg& svg, const solver::Plan& plan, const Panel& panel,
                LabelPlacer& labels) {
  std::vector<Point> line;
  for (const solver::TradeOff& t : plan.trade_off)
    if (spot_of(t).shown()) line.push_back(panel.page(spot_of(t)));
  PathText d;
  d.chain(line, false);
  svg.path(d, {.stroke = colour::coating_edge, .width = 1.6});
  for (std::size_t k = 1; k < line.size(); ++k)
    block_line(labels, line[k - 1], line[k]);
  const double radius = line.size() > kMany ? 2.2 : 3.6;
  for (const solver::TradeOff& t : plan.trade_off) {
    const Spot spot = spot_of(t);
    if (!spot.shown()) continue;
    draw_disc(svg, panel.page(spot), radius,
              in_words(spot, t.current, t.turns) + ": " + t.name);
    const Point at = panel.page(spot);
    labels.block(box_about(at, 2 * radius, 2 * radius));
  }
}

/// Beside the sign where there is room, else farther off with a line to it.
void draw_label(Svg& svg, const PlanMark& mark, Point at, LabelPlacer& labels) {
  const TextStyle style = plan_label(mark.role);
  const double width = text_width(mark.label, style) + 4, height = 16;
  for (double out = 10; out < 130; out += 8)
    for (const Point& way :
         {Point(1, 0), Point(1, -1), Point(-1, -1), Point(-1, 0), Point(0, -1),
          Point(1, 1), Point(-1, 1), Point(0, 1)}) {
      const Point centre =
          at + Point(way.x() * (out + width / 2), way.y() * (out + height / 2));
      if (!labels.take(box_about(centre, width, height))) continue;
      if (out > 20)
        svg.line(at + 9 * way.normalized(),
                 centre - Point(way.x() * width / 2, way.y() * height / 2),
                 {.stroke = style.fill, .width = 0.8});
      svg.text(centre + Point(-width / 2 + 2, 4.4), mark.label, style);
      return;
    }
}

std::string legend_words(const PlanMark& mark) {
  const solver::PlanFigures& f = mark.set_up->figures;
  const Spot spot = spot_of(*mark.set_up);
  std::string words =
      mark.words() + "; " +
      (spot.shown() ? in_words(spot, f.current, f.turns)
                    : digits(spot.minutes) +
                          " min, and a place that counts gets no coating");
  if (!f.breaks.empty()) words += "; it breaks a bound";
  return words;
}

double draw_legend(Svg& svg, const std::vector<PlanMark>& marks,
                   bool with_curve, double top) {
  LegendColumn column(svg, 12, top, narrow_width - 24);
  for (auto mark = marks.rbegin(); mark != marks.rend(); ++mark)
    column.entry([&](Point c) { draw_plan_sign(svg, mark->role, c); },
                 legend_words(*mark));
  if (with_curve)
    column.entry(
        [&](Point c) {
          svg.line(c - Point(12, 0), c + Point(12, 0),
                   {.stroke = colour::coating_edge, .width = 1.6});
          draw_disc(svg, c, 3.6, "");
        },
        "nothing that was tried is as quick and more even");
  return column.bottom();
}

std::string description(const solver::Plan& plan) {
  std::string text = "Evenness against time at the bench.";
  for (const PlanMark& mark : plan_marks(plan))
    text += " " + legend_words(mark) + ".";
  return text;
}

}  // namespace

std::string trade_off_chart(const solver::Plan& plan) {
  Svg svg("trade-off", narrow_width);
  const double head =
      draw_head(svg, plan.drawn.content,
                "What evenness costs in time. The lower left is best.");
  const Panel panel = panel_at(head + 28, all_spots(plan));
  draw_axes(svg, panel);
  LabelPlacer labels(panel.box);
  const std::vector<PlanMark> marks = plan_marks(plan);
  for (const PlanMark& mark : marks)
    if (spot_of(*mark.set_up).shown())
      labels.block(plan_sign_box(panel.page(spot_of(*mark.set_up))));
  draw_curve(svg, plan, panel, labels);
  for (const PlanMark& mark : marks) {
    if (!spot_of(*mark.set_up).shown()) continue;
    draw_plan_sign(svg, mark.role, panel.page(spot_of(*mark.set_up)),
                   legend_words(mark));
  }
  for (auto mark = marks.rbegin(); mark != marks.rend(); ++mark)
    if (spot_of(*mark->set_up).shown())
      draw_label(svg, *mark, panel.page(spot_of(*mark->set_up)), labels);
  const bool curve =
      std::any_of(plan.trade_off.begin(), plan.trade_off.end(),
                  [](const auto& t) { return spot_of(t).shown(); });
  const double bottom = draw_legend(svg, marks, curve, panel.box.bottom + 48);
  return svg.finish(bottom + 8,
                    "Trade-off: " + picture_title(plan.drawn.content),
                    description(plan));
}

}  // namespace thinspot::viz
