#include "solver/plan_levers.hpp"

#include "mesh/errors.hpp"
#include "solver/plan_figures.hpp"
#include "solver/plan_variables.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <numbers>
#include <optional>

namespace thinspot::solver {

namespace {

/// Of a length, how far it is moved to either side, and what it is told for
/// [m]; of an angle likewise [rad]. Far enough for meshes not to show.
constexpr double kMoved = 2e-3, kToldFor = 1e-3;
constexpr double kTilted = 5 * std::numbers::pi / 180;

std::optional<double> least_of(const Case& c, FreePart* part) {
  try {
    Layout layout(c, part);
    return layout.yield(c.steps, 1).least;
  } catch (const CaseError&) {
    return std::nullopt;  // it touches something there
  }
}

/// Addresses of the distances of all anodes, where all have one.
std::vector<std::string> gaps_together(
    const Case& c, const std::vector<PlanVariable>& variables) {
  std::vector<std::string> keys;
  for (const PlanVariable& v : variables)
    if (v.key.starts_with("anode.") && v.key.ends_with(".gap"))
      keys.push_back(v.key);
  if (keys.size() != c.anodes.size()) keys.clear();
  return keys;
}

}  // namespace

std::vector<Lever> placing_levers(const Case& given, double least) {
  std::vector<Lever> levers;
  Case c = given;
  c.plan.vary.clear();
  std::unique_ptr<FreePart> part;
  if (!c.rack) part = std::make_unique<FreePart>(c);
  const auto drawn = least_of(c, part.get());
  if (!drawn || !(*drawn > 0)) return levers;
  const auto tell = [&](Lever lever, double share) {
    if (std::abs(share) < kLeastLever) return;
    lever.share = share;
    lever.change = share * least;
    levers.push_back(std::move(lever));
  };
  const std::vector<PlanVariable> variables = plan_variables(c);
  // Of two anodes that face each other each by itself does harm either way.
  const auto together = gaps_together(c, variables);
  if (together.size() > 1) {
    const auto at = [&](double by) {
      Case moved = c;
      for (const std::string& key : together)
        place_value(moved, key, *placed_value(c, key) + by);
      return least_of(moved, part.get());
    };
    const auto more = at(kMoved), less = at(-kMoved);
    if (more && less) {
      const double share = (*more - *less) / (2 * kMoved) * kToldFor / *drawn;
      tell({"",
            fmt::format("all anodes {} the part, by 1 mm",
                        share > 0 ? "farther from" : "nearer to"),
            0, 0},
           std::abs(share));
    }
  }
  for (const PlanVariable& v : variables) {
    const bool tilt = v.key.ends_with(".turn");
    const double by = tilt ? kTilted : kMoved;
    const auto at = [&](double value) {
      Case moved = c;
      v.set(moved, value);
      return least_of(moved, part.get());
    };
    const double here = *placed_value(c, v.key);
    const auto more = at(here + by), less = at(here - by);
    const double told = (tilt ? kTilted : kToldFor) / by;
    const double up = more ? (*more / *drawn - 1) * told : 0,
                 down = less ? (*less / *drawn - 1) * told : 0;
    // Said in the direction in which it helps: where both hurt, it stands well.
    const double share = std::max(up, down);
    if (share <= 0) continue;
    tell({v.key,
          fmt::format("{}, by {}", up >= down ? v.further : v.nearer,
                      tilt ? "5 deg" : "1 mm"),
          0, 0},
         share);
  }
  for (const PlanSchedule& s : plan_schedules(c, 3)) {
    if (s.drawn || s.turns != 1 || handlings(c) > 0) continue;
    Case turned = c;
    turned.steps = s.steps;
    if (const auto there = least_of(turned, part.get()))
      tell({"", "turned half a turn at half time", 0, 0}, *there / *drawn - 1);
  }
  return levers;
}

void sort_levers(std::vector<Lever>& levers) {
  std::stable_sort(levers.begin(), levers.end(),
                   [](const Lever& a, const Lever& b) {
                     return std::abs(a.share) > std::abs(b.share);
                   });
}

}  // namespace thinspot::solver
