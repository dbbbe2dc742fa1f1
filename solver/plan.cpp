#include "solver/plan.hpp"

#include "solver/levers.hpp"
#include "solver/plan_choice.hpp"
#include "solver/plan_curve.hpp"
#include "solver/plan_figures.hpp"
#include "solver/plan_levers.hpp"
#include "solver/plan_reach.hpp"
#include "solver/plan_search.hpp"
#include "solver/plan_set_up.hpp"
#include "solver/schedule.hpp"
#include "solver/simulate.hpp"
#include "solver/stopwatch.hpp"

#include <algorithm>
#include <memory>
#include <string>
#include <utility>

namespace thinspot::solver {

namespace {

/// Set-ups that are proposed: one to take, and what asks for less.
constexpr std::size_t kMostSetUps = 4;
/// Where evenness or metal counts and nobody says how long it may take: so many
/// times what the drawn set-up takes.
constexpr double kPatience = 2;

/// What the search moves, each once, in words.
std::vector<std::string> varied_in(const SearchSpace& space) {
  std::vector<std::string> varied;
  for (const PlanStructure& s : space.structures)
    for (const PlanVariable& v : s.variables) {
      std::string words = in_words(v);
      if (std::find(varied.begin(), varied.end(), words) == varied.end())
        varied.push_back(std::move(words));
    }
  return varied;
}

/// Of what the goal counts, a change that is worth it.
constexpr double kWorth = 0.02;

/// Fewer broken bounds first, then the goal.
bool better(const SetUp& a, const SetUp& b, PlanGoal goal) {
  if (a.figures.breaks.size() != b.figures.breaks.size())
    return a.figures.breaks.size() < b.figures.breaks.size();
  if ((a.figures.least > 0) != (b.figures.least > 0))
    return a.figures.least > 0;
  return of_goal(a.figures, goal) < (1 - kWorth) * of_goal(b.figures, goal);
}

/// The drawn set-up comes first where nothing is worth the change, for the time
/// that it needs.
void keep_drawn(Plan& plan, PlanGoal goal) {
  if (!plan.set_ups.empty() && better(plan.set_ups.front(), plan.drawn, goal))
    return;
  SetUp drawn = plan.drawn;
  if (const auto& target = drawn.result->target; target && target->time_needed)
    drawn = solved_set_up(
        drawn.name, with_time(std::move(drawn.content), *target->time_needed));
  plan.set_ups.insert(plan.set_ups.begin(), std::move(drawn));
}

/// Of what needs another mesh, and of what does not.
std::vector<Lever> all_levers(const Case& c, const Result& drawn) {
  std::vector<Lever> all = placing_levers(c, drawn.target->least);
  for (Lever& lever : levers(run_schedule(c), c))
    all.push_back(std::move(lever));
  sort_levers(all);
  return all;
}

}  // namespace

Plan plan(const Case& c, const Progress& progress) {
  const Stopwatch watch;
  Plan plan;
  // 1. What is drawn, in full.
  plan.drawn = {"as drawn", c, {}, nullptr};
  PlanLimits limits = plan_limits(c);
  plan.drawn.result = std::make_shared<const Result>(
      simulate(c, progress.part(0, 0.1).named({"the drawn set-up"})));
  plan.drawn.figures = plan_figures(*plan.drawn.result);

  // 2. All that may hang in the tank, and all that may be done with the part.
  if (limits.goal != PlanGoal::time && !limits.longest &&
      plan.drawn.figures.least > 0)
    limits.longest = kPatience * plan.drawn.figures.bench;
  const SearchSpace space = search_space(c, limits);
  plan.varied = varied_in(space);

  // 3. The best of each.
  const SearchResult found =
      search(space, progress.part(0.1, 0.7).named({"search"}));
  plan.layouts = found.layouts;
  plan.candidates = found.candidates;

  // 4. The ones to propose, as a hand can set them up, in full.
  const std::vector<Found> best = chosen(space, found, kMostSetUps);
  const Progress solving = progress.part(0.7, 0.9).named({"proposals"});
  for (std::size_t k = 0; k < best.size(); ++k)
    plan.set_ups.push_back(solved_set_up(
        name_of(space.structures[best[k].structure],
                space.schedules[best[k].structure][best[k].schedule]),
        set_up_case(c, space, best[k]), solving.piece(k, best.size())));
  keep_drawn(plan, c.plan.goal);

  // 5. What it costs to have it more even; what to change first; what stands in
  //    the way.
  plan.trade_off = trade_off(space, found);
  plan.levers = all_levers(c, *plan.drawn.result);
  plan.out_of_reach = out_of_reach(c, limits, plan.set_ups.front());
  plan.seconds = watch.seconds();
  progress.at(1);
  return plan;
}

}  // namespace thinspot::solver
