#include "solver/plan_choice.hpp"

#include <algorithm>
#include <array>

namespace thinspot::solver {

namespace {

/// Of the objective, what a simpler set-up may cost: what the search and a
/// ruler tell apart.
constexpr double kAsGood = 0.02;

/// What a set-up asks for, each the less the better.
std::array<std::size_t, 3> asks(const SearchSpace& space, const Found& f) {
  const PlanStructure& s = space.structures[f.structure];
  return {
      static_cast<std::size_t>(space.schedules[f.structure][f.schedule].turns),
      s.anodes, static_cast<std::size_t>(s.shield) + s.thief + s.inside};
}

std::size_t all_of(const std::array<std::size_t, 3>& a) {
  return a[0] + a[1] + 2 * a[2];
}

bool asks_less(const std::array<std::size_t, 3>& a,
               const std::array<std::size_t, 3>& b) {
  bool less = false;
  for (std::size_t k = 0; k < a.size(); ++k) {
    if (a[k] > b[k]) return false;
    less = less || a[k] < b[k];
  }
  return less;
}

}  // namespace

std::vector<Found> chosen(const SearchSpace& space, const SearchResult& result,
                          std::size_t most) {
  std::vector<Found> all;
  if (result.found.empty()) return all;
  const double best = result.found.front().trial.objective;
  const Found* simplest = nullptr;
  for (const Found& f : result.found) {
    if (f.trial.objective > (1 + kAsGood) * best) break;
    if (!simplest || all_of(asks(space, f)) < all_of(asks(space, *simplest)))
      simplest = &f;
  }
  all.push_back(*simplest);
  // Others ask for something less than the first; one that asks for as much as
  // another and is worse is none.
  const auto first = asks(space, *simplest);
  for (const Found& f : result.found) {
    if (all.size() == most) break;
    const auto asked = asks(space, f);
    if (asked == first || asks_less(first, asked)) continue;
    const bool dominated =
        std::any_of(all.begin(), all.end(), [&](const Found& other) {
          const auto its = asks(space, other);
          return its == asked || (asks_less(its, asked) &&
                                  other.trial.objective <= f.trial.objective);
        });
    if (!dominated) all.push_back(f);
  }
  return all;
}

}  // namespace thinspot::solver
