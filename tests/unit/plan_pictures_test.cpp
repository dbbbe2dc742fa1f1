// Pictures of a plan: what evenness costs, and what to change first.
#include "tests/unit/picture_checks.hpp"
#include "tests/unit/plan_samples.hpp"
#include "tests/unit/svg_reading.hpp"
#include "viz/axis_scale.hpp"
#include "viz/changes_chart.hpp"
#include "viz/plan_marks.hpp"
#include "viz/trade_off_chart.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <limits>

using namespace thinspot;
using namespace thinspot::tests;

namespace {

/// Sound, and nothing outside of the view box.
void check_chart(const std::string& svg, std::size_t least = 11) {
  check_picture(svg, least);
  const viz::TextBox page = view_box(svg);
  for (const viz::Point& p : drawn_points(svg)) CHECK(page.holds(p));
}

/// The room of the text that is just this.
viz::TextBox place_of(const std::string& svg, const std::string& text) {
  for (const DrawnText& t : drawn_texts(svg))
    if (t.text == text) return t.box;
  FAIL("no text \"" << text << '"');
  return {};
}

long count_titles(const std::string& svg, const std::string& words) {
  const auto all = titles(svg);
  return std::count_if(all.begin(), all.end(), [&](const std::string& t) {
    return t.find(words) != std::string::npos;
  });
}

}  // namespace

TEST_CASE("the trade-off marks each set-up, named and told apart") {
  const solver::Plan plan = plan_sample();
  const std::string svg = viz::trade_off_chart(plan);
  check_chart(svg);
  for (const std::string text :
       {"Time at the bench (min)", "Largest over least", "as drawn; 80 min",
        "recommended: two anodes, turned once; 46 min", "2: two anodes",
        "3: one anode"}) {
    INFO(text);
    CHECK(says(svg, text));
  }
  // Each point of the curve and each sign tells its figures to a pointer.
  CHECK(count_titles(svg, "largest over least") == 6 + 1 + 3);
  CHECK(count_titles(svg,
                     "30 min, largest over least 2.3, 0.33 A, not handled"
                     ": two anodes, turned once") == 1);
  CHECK(count_titles(svg,
                     "recommended: two anodes, turned once; 46 min, "
                     "largest over least 1.9, 0.33 A, handled once") == 1);
}

TEST_CASE("quicker is farther left, more even is lower") {
  const std::string svg = viz::trade_off_chart(plan_sample());
  const viz::TextBox drawn = place_of(svg, "as drawn");
  const viz::TextBox taken = place_of(svg, "recommended");
  CHECK(taken.left < drawn.left);
  CHECK(taken.top > drawn.bottom);
}

TEST_CASE("a trade-off of any form makes a sound chart with every label") {
  for (const std::size_t points : {0, 1, 2, 200})
    for (const std::size_t set_ups : {1, 4})
      for (const double longest : {1.0001, 3.0, 400.0})
        for (const bool alike : {false, true}) {
          CAPTURE(points, set_ups, longest, alike);
          const std::string svg = viz::trade_off_chart(
              plan_sample({.set_ups = set_ups,
                           .points = points,
                           .longest = longest,
                           .name = "four anodes, with a shield, turned every "
                                   "45 degrees and lifted once between",
                           .alike = alike}));
          check_chart(svg);
          place_of(svg, "as drawn");
          place_of(svg, "recommended");
          if (set_ups == 4) place_of(svg, "4");
        }
}

TEST_CASE("a set-up that leaves a place bare stands in words alone") {
  solver::Plan plan = plan_sample();
  plan.drawn.figures.evenness = 0;
  plan.trade_off[0].evenness = std::numeric_limits<double>::infinity();
  plan.set_ups[1].figures.breaks = {"it likely burns"};
  const std::string svg = viz::trade_off_chart(plan);
  check_chart(svg);
  CHECK(says(svg, "a place that counts gets no coating"));
  CHECK(says(svg, "it breaks a bound"));
  const auto texts = drawn_texts(svg);
  CHECK(std::none_of(texts.begin(), texts.end(),
                     [](const auto& t) { return t.text == "as drawn"; }));
}

TEST_CASE("a title that looks like markup stays text in both charts") {
  PlanWanted hostile{.title = "</svg><script>alert(1)</script> & \"so\" on"};
  hostile.name = "<b>two</b>";
  solver::Plan plan = plan_sample(hostile);
  plan.levers[0].words = "<img src=x> farther";
  for (const std::string& svg :
       {viz::trade_off_chart(plan), viz::changes_chart(plan)}) {
    check_chart(svg, 6);
    CHECK(svg.find("<script") == std::string::npos);
    CHECK(svg.find("<img") == std::string::npos);
    CHECK(svg.find("<b>") == std::string::npos);
  }
}

TEST_CASE("axes by amount and by factor") {
  const viz::AxisScale near = viz::around({30, 90}, 0, 100, 8);
  CHECK_FALSE(near.by_factor);
  CHECK(near.page(60) == Approx(50));
  CHECK(near.low < 30);
  CHECK(near.high > 90);
  const viz::AxisScale far = viz::around({1, 10000}, 0, 100, 8);
  CHECK(far.by_factor);
  CHECK(far.page(100) == Approx(50));
  CHECK(far.numbers(6).size() >= 3);
  CHECK(viz::around({5, 5}, 0, 100, 8).page(5) == Approx(50));
  const viz::AxisScale up = viz::up_from(1, {1.5, 2}, 200, 0, 5);
  CHECK(up.page(1) == Approx(200));
  CHECK(up.page(2) > 0);
  CHECK_FALSE(viz::up_from(1, {}, 200, 0, 5).numbers(6).empty());
}

TEST_CASE("changes are ranked as given, to the side that they go to") {
  const solver::Plan plan = plan_sample();
  const std::string svg = viz::changes_chart(plan);
  check_chart(svg);
  const viz::TextBox first = place_of(svg, "sheet 1 mm farther from the part");
  const viz::TextBox third = place_of(svg, "sheet 3 mm farther from the part");
  CHECK(first.top < third.top);
  const viz::TextBox gain = place_of(svg, "+12 %");
  const viz::TextBox loss = place_of(svg, "\u22124 %");
  CHECK(gain.left > loss.right);
  CHECK(gain.top > first.top);
  CHECK(count_titles(svg,
                     "sheet 1 mm farther from the part: thinnest spot "
                     "+12 %") == 1);
}

TEST_CASE("at most ten changes, the rest counted") {
  const std::string svg = viz::changes_chart(plan_sample({.levers = 14}));
  check_chart(svg);
  CHECK(says(svg, "sheet 10 mm"));
  CHECK_FALSE(says(svg, "sheet 11 mm"));
  CHECK(says(svg, "and 4 that do less"));
}

TEST_CASE("changes all to one side, long words, none at all") {
  solver::Plan plan = plan_sample();
  for (solver::Lever& lever : plan.levers) {
    lever.share = -lever.share * lever.share;
    lever.words = std::string("the sheet behind the second shield on the left ")
                      .append("farther to the right, by 1 mm, which is less ")
                      .append("than a ruler shows");
  }
  check_chart(viz::changes_chart(plan));
  check_chart(viz::changes_chart(plan_sample({.levers = 1})), 4);
  plan.levers.clear();
  const std::string none = viz::changes_chart(plan);
  check_chart(none, 3);
  CHECK(says(none, "no small change moves the thinnest spot"));
}
