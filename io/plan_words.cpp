#include "io/plan_words.hpp"

#include "io/number_text.hpp"
#include "io/phrases.hpp"
#include "io/plan_changes.hpp"
#include "io/trade_units.hpp"
#include "mesh/digits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::io {

namespace {

using solver::Plan;
using solver::PlanFigures;
using solver::PlanGoal;
using Lines = std::vector<std::string>;

/// Changes that the verdict names; the list has them all.
constexpr std::size_t kNamed = 3;
/// Figures that differ by less are the same.
constexpr double kSame = 5e-3;

bool plates_all(const PlanFigures& f) { return f.least > 0; }

bool same(double a, double b) {
  return std::abs(a - b) <= kSame * std::max(std::abs(a), std::abs(b));
}

/// "a; then b", "a; b; then c".
std::string told_in_turn(const Lines& items) {
  std::string text;
  for (std::size_t k = 0; k < items.size(); ++k)
    text += (k == 0 ? "" : k + 1 == items.size() ? "; then " : "; ") + items[k];
  return text;
}

std::string to_do(const Lines& changes) {
  if (changes.empty())
    return "Leave it as drawn: nothing within the bounds does better.";
  const std::size_t named = std::min(changes.size(), kNamed);
  const Lines first(changes.begin(),
                    changes.begin() + static_cast<std::ptrdiff_t>(named));
  const std::size_t more = changes.size() - named;
  if (more == 0) return capital(told_in_turn(first)) + ".";
  return capital(
      fmt::format("{}; and {} more below.", fmt::join(first, "; "),
                  more == 1 ? "one thing" : fmt::format("{} things", more)));
}

std::string place_of(const std::string& now, const std::string& before,
                     bool alike) {
  return alike ? now + ", as drawn" : now + " in place of " + before;
}

std::string time_gain(const PlanFigures& was, const PlanFigures& is) {
  if (!plates_all(is)) return "";
  const std::string now = time_estimate(is.bench) + " at the bench";
  if (!plates_all(was))
    return now + ", where as drawn a place that counts gets next to nothing";
  return place_of(now, time_estimate(was.bench), same(was.bench, is.bench));
}

std::string evenness_gain(const PlanFigures& was, const PlanFigures& is) {
  if (!plates_all(is)) return "";
  const std::string now =
      fmt::format("the heaviest spot grows {} times as thick as the thinnest",
                  evenness_text(is));
  if (!plates_all(was)) return now;
  return place_of(now, evenness_text(was), same(was.evenness, is.evenness));
}

/// Micrometres an hour at the thinnest judged spot.
double growth(const PlanFigures& f) {
  return f.plating > 0 ? to_um(f.least) * 3600 / f.plating : 0;
}

Lines gains(const PlanFigures& was, const PlanFigures& is) {
  Lines lines;
  const auto add = [&](const std::string& text) {
    if (!text.empty()) lines.push_back(capital(text) + ".");
  };
  add(time_gain(was, is));
  add(evenness_gain(was, is));
  if (plates_all(is))
    add(place_of(fmt::format("the thinnest spot grows {} µm an hour",
                             digits(growth(is))),
                 digits(growth(was)), same(growth(was), growth(is))));
  if (plates_all(is) && plates_all(was))
    add(place_of(fmt::format("{} g of metal", digits(to_grams(is.metal))),
                 digits(to_grams(was.metal)) + " g",
                 same(was.metal, is.metal)));
  return lines;
}

std::string verdict(const Plan& plan, const Lines& changes) {
  const PlanFigures &was = plan.drawn.figures,
                    &is = plan.set_ups.front().figures;
  std::string text = to_do(changes);
  if (!plates_all(is))
    return text + " A place that counts gets next to nothing all the same.";
  const double wanted = plan.drawn.content.target.thickness.value_or(0);
  const std::string reached =
      wanted > 0 ? micrometres(wanted) + " everywhere that counts take "
                 : "That takes ";
  const PlanGoal goal = plan.drawn.content.plan.goal;
  text += " " + capital(reached + time_gain(was, is));
  if (goal != PlanGoal::metal) text += "; " + evenness_gain(was, is);
  if (goal == PlanGoal::metal)
    text += fmt::format("; {} g of metal", digits(to_grams(is.metal))) +
            (plates_all(was) && !same(was.metal, is.metal)
                 ? fmt::format(" in place of {} g", digits(to_grams(was.metal)))
                 : "");
  text += ".";
  if (!is.breaks.empty()) text += " But " + is.breaks.front() + ".";
  return text;
}

std::string lever_words(const solver::Lever& lever) {
  const double um = to_um(lever.change);
  return fmt::format("{}: the thinnest spot {} {} µm ({} %).",
                     capital(lever.words), um < 0 ? "loses" : "gains",
                     digits(std::abs(um), 2),
                     digits(100 * std::abs(lever.share), 2));
}

std::string reach_words(const Plan& plan) {
  if (!plan.out_of_reach) return "";
  const solver::OutOfReach& o = *plan.out_of_reach;
  std::string text = capital(o.what) + ".";
  if (!o.key.empty() && !o.relaxed.empty())
    text += fmt::format(" What would do: {} = {}.", o.key, o.relaxed);
  return text;
}

}  // namespace

std::string evenness_text(const PlanFigures& f) {
  return f.evenness > 0 ? full_digits(f.evenness, 3) : "no end";
}

PlanWords plan_words(const Plan& plan) {
  PlanWords words;
  for (const solver::SetUp& s : plan.set_ups)
    words.changes.push_back(plan_changes(plan.drawn.content, s.content));
  words.verdict = verdict(plan, words.changes.front());
  words.gain = gains(plan.drawn.figures, plan.set_ups.front().figures);
  for (const solver::Lever& lever : plan.levers)
    words.first.push_back(lever_words(lever));
  words.out_of_reach = reach_words(plan);
  return words;
}

}  // namespace thinspot::io
