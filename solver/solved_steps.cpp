#include "solver/solved_steps.hpp"

#include "mesh/errors.hpp"
#include "solver/certify_turned.hpp"
#include "solver/deposit.hpp"
#include "solver/step_case.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

namespace thinspot::solver {

namespace {

using Shared = std::shared_ptr<const Certified>;

/// On a mesh of its own.
Shared alone(Model model, const Case& c, const std::vector<Watched>& watched,
             const WorkingPoint* before, const Progress& progress) {
  return std::make_shared<const Certified>(
      certify(std::move(model), c, watched, before, progress));
}

/// Probes are points of the first part's material: where it is in a step.
void move_probes(Case& c, const mesh::Section& drawn,
                 const mesh::Section& there) {
  const auto part = std::find_if(
      drawn.solids.begin(), drawn.solids.end(),
      [](const auto& s) { return s.spec.role == mesh::Role::part; });
  const auto moved = std::find_if(
      there.solids.begin(), there.solids.end(),
      [](const auto& s) { return s.spec.role == mesh::Role::part; });
  if (part == drawn.solids.end() || moved == there.solids.end()) return;
  for (Probe& probe : c.probes) {
    const mesh::OutlineFoot foot = mesh::nearest(part->outline, probe.at);
    mesh::Place place{static_cast<int>(foot.loop), static_cast<int>(foot.curve),
                      foot.t};
    if (moved->flipped) place = mesh::flipped(place, part->outline);
    probe.at = mesh::point_at(
        mesh::curve_of(moved->outline, place.loop, place.curve), place.t);
  }
}

Case used_in(const Case& c, std::size_t step, const mesh::Section& drawn) {
  Case used = case_of_step(c, step);
  if (used.section.motion == mesh::Motion{} || used.probes.empty()) return used;
  move_probes(used, drawn, mesh::build_section(used.section));
  return used;
}

/// What is wrong only once the part has moved says so.
InputError in_step(const InputError& error, std::size_t step) {
  std::vector<Problem> problems = error.problems();
  for (Problem& p : problems) p.wrong += fmt::format(", in step {}", step + 1);
  return InputError(std::move(problems));
}

bool same_but_turn(const Step& a, Step b) {
  b.motion.turn = a.motion.turn;
  return same_places(a, b);
}

/// Of what a step takes, its first mesh.
constexpr double kMeshed = 0.4;
/// Of what angles that share a mesh take, what is kept for meshes of their own.
constexpr double kReserve = 0.1;

/// Angles are counted where the step turns, steps where there are several.
Progress counted(const Progress& progress,
                 const std::vector<std::size_t>& numbers, std::size_t k) {
  const auto [first, end] =
      std::equal_range(numbers.begin(), numbers.end(), numbers[k]);
  if (end - first > 1)
    return progress.counted(
        "angle", k + 1 - static_cast<std::size_t>(first - numbers.begin()),
        static_cast<std::size_t>(end - first));
  if (numbers.back() == 0) return progress;
  return progress.counted("step", numbers[k] + 1, numbers.back() + 1);
}

class Solver {
 public:
  Solver(const Case& c, const std::vector<std::size_t>& numbers,
         const mesh::Section& drawn, const SolvedSteps& before,
         const Progress& progress)
      : case_(c), numbers_(numbers), before_(before), pieces_(progress) {
    result_.turns = before.turns;
    for (std::size_t k = 0; k < c.steps.size(); ++k)
      named(k, [&] {
        SolvedStep step{used_in(c, k, drawn), nullptr, 0, -1};
        step.growth = growth_per_density(step.used);
        result_.steps.push_back(std::move(step));
      });
  }

  SolvedSteps solve() {
    const std::vector<bool> fresh = fresh_steps();
    for (std::size_t k = 0; k < case_.steps.size(); ++k) {
      if (result_.steps[k].solved || share_solution(k)) continue;
      double after = 0;
      for (std::size_t j = k + 1; j < fresh.size(); ++j)
        after += fresh[j] && !result_.steps[j].solved;
      if (!solve_turns(k, after)) named(k, [&] { solve_alone(k, after); });
    }
    return std::move(result_);
  }

 private:
  template <class Work>
  void named(std::size_t k, Work work) const {
    try {
      work();
    } catch (const InputError& error) {
      if (k == 0) throw;
      throw in_step(error, numbers_[k]);
    }
  }

  /// Calls visit with every step that is solved, these and those before.
  template <class Visit>
  void for_each_solved(Visit visit) const {
    for (const auto* all : {&result_.steps, &before_.steps})
      for (const SolvedStep& other : *all)
        if (other.solved) visit(other, other.used.steps.front());
  }

  /// Which steps no other step before them is like.
  std::vector<bool> fresh_steps() const {
    std::vector<bool> fresh;
    for (std::size_t k = 0; k < result_.steps.size(); ++k) {
      const auto alike = [&](const SolvedStep& other) {
        return same_field(other.used, result_.steps[k].used);
      };
      const auto here = result_.steps.begin() + static_cast<std::ptrdiff_t>(k);
      fresh.push_back(
          std::none_of(result_.steps.begin(), here, alike) &&
          std::none_of(before_.steps.begin(), before_.steps.end(), alike));
    }
    return fresh;
  }

  bool share_solution(std::size_t k) {
    SolvedStep& step = result_.steps[k];
    for_each_solved([&](const SolvedStep& other, const Step&) {
      if (step.solved || !same_field(other.used, step.used)) return;
      step.solved = other.solved;
      step.turnable = other.turnable;
    });
    return step.solved != nullptr;
  }

  /// @param after  how many are to be solved after it
  void solve_alone(std::size_t k, double after) {
    const Progress progress = counted(pieces_.next(1, after), numbers_, k);
    progress.at(0);
    SolvedStep& step = result_.steps[k];
    const Certified* alike = nullptr;
    for_each_solved([&](const SolvedStep& other, const Step& there) {
      if (other.turnable < 0 && same_places(there, case_.steps[k]))
        alike = other.solved.get();
    });
    Model model = alike ? alike->model : build_model(least_conducting(k));
    step.solved = alone(std::move(model), step.used, {}, nullptr,
                        progress.part(kMeshed, 1));
  }

  /// The case of a step, but for the least conductivity of all that may share
  /// its mesh: there currents crowd most.
  Case least_conducting(std::size_t k) const {
    Case used = result_.steps[k].used;
    Quantity& least = used.solution.conductivity;
    for (const SolvedStep& other : result_.steps) {
      if (!same_but_turn(case_.steps[k], other.used.steps.front())) continue;
      const Quantity& there = other.used.solution.conductivity;
      if (there.value < least.value) least = there;
    }
    return used;
  }

  /// Steps from this one on that differ in turn and supply alone, not solved
  /// yet, no two of them alike.
  std::vector<std::size_t> group_of(std::size_t k) const {
    std::vector<std::size_t> group;
    for (std::size_t j = k; j < case_.steps.size(); ++j)
      if (!result_.steps[j].solved &&
          same_but_turn(case_.steps[k], case_.steps[j]) &&
          std::none_of(group.begin(), group.end(), [&](std::size_t i) {
            return same_field(result_.steps[i].used, result_.steps[j].used);
          }))
        group.push_back(j);
    return group;
  }

  int turns_of(std::size_t k) const {
    for (std::size_t t = 0; t < result_.turns.size(); ++t)
      if (same_but_turn(result_.turns[t].like, case_.steps[k]))
        return static_cast<int>(t);
    return -1;
  }

  bool turns(const std::vector<std::size_t>& group) const {
    return std::any_of(group.begin(), group.end(), [&](std::size_t j) {
      return case_.steps[j].motion.turn !=
             case_.steps[group.front()].motion.turn;
    });
  }

  bool is_apart(std::size_t k) const {
    return std::any_of(apart_.begin(), apart_.end(), [&](const Step& s) {
      return same_but_turn(s, case_.steps[k]);
    });
  }

  /// @returns false, for all such steps to come as well.
  bool keep_apart(std::size_t k) {
    apart_.push_back(case_.steps[k]);
    return false;
  }

  /// @returns false where no other step is turned against this one, its parts
  ///          have no free circle or need too fine a mesh, or their surface
  ///          moves.
  bool solve_turns(std::size_t k, double after) {
    // Growth moves the nodes of each mesh.
    if (case_.growth || is_apart(k)) return false;
    const std::vector<std::size_t> group = group_of(k);
    const auto own = static_cast<double>(group.size());
    int at = turns_of(k);
    std::optional<Turnable> made;
    if (at < 0) {
      if (!turns(group)) return false;
      pieces_.next(kMeshed * own, after + 1).at(0);
      named(k, [&] { made = build_turnable(least_conducting(k)); });
      if (!made) return keep_apart(k);
    }
    std::vector<Case> cases;
    for (std::size_t j : group) cases.push_back(result_.steps[j].used);
    CertifiedTurns solved = certified(
        made ? *made : result_.turns[static_cast<std::size_t>(at)].turnable,
        cases, group,
        pieces_.next(own, std::max(kReserve * own, after + 1 - own)));
    if (solved.too_large()) return keep_apart(k);
    if (made) {
      at = static_cast<int>(result_.turns.size());
      result_.turns.push_back({case_.steps[k], std::move(solved.turnable)});
    } else {
      result_.turns[static_cast<std::size_t>(at)].turnable =
          std::move(solved.turnable);
    }
    for (std::size_t i = 0; i < group.size(); ++i) {
      result_.steps[group[i]].solved = solved.each[i];
      result_.steps[group[i]].turnable = at;
    }
    return true;
  }

  CertifiedTurns certified(const Turnable& turnable,
                           const std::vector<Case>& cases,
                           const std::vector<std::size_t>& group,
                           const Progress& progress) const {
    try {
      return certify_turned(turnable, cases, {}, progress);
    } catch (const InputError&) {
      // Which of them it was.
      for (std::size_t i = 0; i < group.size(); ++i)
        named(group[i],
              [&] { evaluate(turned_model(turnable, cases[i]), cases[i]); });
      throw;
    }
  }

  const Case& case_;
  const std::vector<std::size_t>& numbers_;
  const SolvedSteps& before_;
  Unfolding pieces_;
  SolvedSteps result_;
  std::vector<Step> apart_;  // each turn of them has a mesh of its own
};

/// Solutions that steps share count once.
std::size_t count_solutions(const SolvedSteps& all) {
  std::vector<const Certified*> seen;
  for (const SolvedStep& step : all.steps) seen.push_back(step.solved.get());
  std::sort(seen.begin(), seen.end());
  return static_cast<std::size_t>(std::unique(seen.begin(), seen.end()) -
                                  seen.begin());
}

}  // namespace

SolvedSteps solve_steps(const Case& c, const std::vector<std::size_t>& numbers,
                        const mesh::Section& drawn, const SolvedSteps& before,
                        const Progress& progress) {
  SolvedSteps all = Solver(c, numbers, drawn, before, progress).solve();
  progress.at(1);
  return all;
}

void watch(SolvedSteps& all, const std::vector<std::vector<Watched>>& watched,
           const Progress& progress) {
  std::vector<std::pair<Shared, Shared>> done;  // before and after
  const std::size_t count = count_solutions(all);
  const auto stretch = [&](std::size_t number) {
    return progress.piece(done.size(), count, number);
  };
  for (std::size_t t = 0; t < all.turns.size(); ++t) {
    std::vector<Case> cases;
    std::vector<std::vector<Watched>> windows;
    std::vector<Shared> before;
    for (std::size_t k = 0; k < all.steps.size(); ++k) {
      const SolvedStep& step = all.steps[k];
      if (step.turnable != static_cast<int>(t) ||
          std::find(before.begin(), before.end(), step.solved) != before.end())
        continue;
      before.push_back(step.solved);
      cases.push_back(step.used);
      windows.push_back(watched[k]);
    }
    if (cases.empty()) continue;
    CertifiedTurns again =
        certify_turned(std::move(all.turns[t].turnable), cases, windows,
                       stretch(cases.size()));
    all.turns[t].turnable = std::move(again.turnable);
    for (std::size_t i = 0; i < before.size(); ++i)
      done.emplace_back(before[i],
                        again.too_large()
                            ? alone(build_model(cases[i]), cases[i], windows[i],
                                    &before[i]->outcome.point, {})
                            : again.each[i]);
    if (!again.too_large()) continue;
    for (SolvedStep& step : all.steps)
      if (step.turnable == static_cast<int>(t)) step.turnable = -1;
  }
  for (std::size_t k = 0; k < all.steps.size(); ++k) {
    SolvedStep& step = all.steps[k];
    const auto found = std::find_if(
        done.begin(), done.end(),
        [&](const auto& pair) { return pair.first == step.solved; });
    if (found != done.end()) {
      step.solved = found->second;
      continue;
    }
    const Shared again = alone(
        step.solved->model, step.used, watched[k], &step.solved->outcome.point,
        stretch(1).counted("solution", done.size() + 1, count));
    done.emplace_back(std::exchange(step.solved, again), again);
  }
}

}  // namespace thinspot::solver
