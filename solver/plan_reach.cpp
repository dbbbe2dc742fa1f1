#include "solver/plan_reach.hpp"

#include "solver/plan_search.hpp"

#include <fmt/format.h>

#include <cmath>

namespace thinspot::solver {

namespace {

std::string in_minutes(double seconds) {
  return fmt::format("{:.0f} min", std::ceil(seconds / 60 * (1 - 1e-9)));
}

/// One more turn, or one more anode, where that keeps the time.
std::optional<OutOfReach> with_more(const Case& c, const PlanLimits& limits,
                                    const std::string& what) {
  const auto reaches = [&](const Case& relaxed) {
    const SearchResult found = search(search_space(relaxed, limits));
    return !found.found.empty() && found.found.front().trial.excess == 0;
  };
  const int turns = most_turns(c);
  Case relaxed = c;
  relaxed.plan.most_turns = turns + 1;
  if (reaches(relaxed))
    return OutOfReach{what, "plan.max_turns", fmt::format("{}", turns + 1)};
  const int anodes =
      c.plan.most_anodes.value_or(static_cast<int>(c.anodes.size()));
  if (anodes >= 4) return std::nullopt;
  relaxed = c;
  relaxed.plan.most_anodes = anodes + 1;
  if (reaches(relaxed))
    return OutOfReach{what, "plan.max_anodes", fmt::format("{}", anodes + 1)};
  return std::nullopt;
}

}  // namespace

std::optional<OutOfReach> out_of_reach(const Case& c, const PlanLimits& limits,
                                       const SetUp& best) {
  const double wanted = *c.target.thickness;
  if (!(best.figures.least > 0))
    return OutOfReach{
        fmt::format("no set-up within the bounds brings any coating to all "
                    "that counts"),
        "target.faces", "the faces that an anode can see"};
  if (c.plan.longest && best.figures.bench > *c.plan.longest * (1 + 1e-9)) {
    const std::string what =
        fmt::format("no set-up within the bounds reaches {:.3g} µm within {}",
                    wanted * 1e6, in_minutes(*c.plan.longest));
    if (const auto more = with_more(c, limits, what)) return more;
    return OutOfReach{what, "plan.max_time", in_minutes(best.figures.bench)};
  }
  if (!best.figures.breaks.empty())
    return OutOfReach{"every set-up within the bounds breaks one: " +
                          best.figures.breaks.front(),
                      c.plan.vary.empty() ? "supply" : "plan.vary",
                      "a wider range of currents"};
  return std::nullopt;
}

}  // namespace thinspot::solver
