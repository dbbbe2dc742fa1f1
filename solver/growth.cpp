#include "solver/growth.hpp"

#include "mesh/errors.hpp"
#include "mesh/millimetres.hpp"
#include "solver/moving_phase.hpp"
#include "solver/outcome.hpp"
#include "solver/schedule.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <string>
#include <utility>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::VectorXd;

constexpr int kMostSubsteps = 32;
/// Where this many substeps fold the mesh, as many again do not help: it is the
/// deposit that folds.
constexpr int kEnoughToFold = 8;
/// Substeps that are expected after the first run, which is of one: two, and
/// sometimes four more.
constexpr double kFirstGuess = 3;
/// Of a run, what is kept for one that was not expected.
constexpr double kReserve = 0.3;

/// What of the figures at the electrodes is a mean over time.
Outcome outcome_of(const Certified& drawn, const Case& used, const Moved& moved,
                   double growth) {
  Outcome outcome = drawn.outcome;
  const Model& model = drawn.model;
  const double window = used.accuracy.averaging_length;
  for (std::size_t p = 0; p < outcome.parts.size(); ++p) {
    PartOutcome& part = outcome.parts[p];
    const Surface& surface = model.surfaces[p];
    const Electrode& e = model.response.electrodes().each[surface.electrode];
    part.current_density = moved.parts[p].added / growth;
    part.over_drawn_area = moved.parts[p].charged / growth;
    part.current = moved.parts[p].current;
    const double mean = e.weight.dot(part.current_density) / e.measure;
    put_extremes(part, surface, window, mean);
  }
  WorkingPoint& w = outcome.point;
  w.current = moved.current;
  w.total_current = moved.total_current;
  w.wire_current = moved.wire_current;
  w.terminal_voltage = moved.terminal_voltage;
  w.limited_by = moved.limited_by;
  for (std::size_t k = 0; k < outcome.probes.size(); ++k)
    outcome.probes[k] = read_probe(model, used.probes[k], window,
                                   outcome.parts.front().current_density);
  return outcome;
}

[[noreturn]] void folds(const Moved& moved, std::size_t step) {
  std::string where;
  if (moved.folded) where = " near " + mesh::in_mm(*moved.folded);
  const std::string when =
      moved.missed > 0
          ? fmt::format("between {:.0f} and {:.0f} % of step {}",
                        100 * moved.reached, 100 * moved.missed, step + 1)
          : fmt::format("where step {} begins", step + 1);
  throw NoResultError(fmt::format(
      "growth: {} the deposit closes on itself, meets something else or folds "
      "at an edge{}, and its surface cannot be followed any further. Plate "
      "less, give edges their real radius, or set growth = false to have the "
      "thickness on the part as drawn",
      when, where));
}

/// How far two runs are apart at most, each part [m].
std::vector<double> changes(const Moved& a, const Moved& b) {
  std::vector<double> change;
  for (std::size_t p = 0; p < a.parts.size(); ++p)
    change.push_back(
        (a.parts[p].added - b.parts[p].added).cwiseAbs().maxCoeff());
  return change;
}

bool within(const std::vector<double>& change, const Moved& moved,
            double tolerance) {
  for (std::size_t p = 0; p < change.size(); ++p)
    if (!(change[p] <= tolerance * std::abs(moved.parts[p].added.mean())))
      return false;
  return true;
}

struct Settled {
  Moved moved;
  int substeps = 1;
  std::vector<double> change;
};

/// How much more work than a run of n substeps those after it are, for one of
/// the second order: each doubling leaves a quarter of the change.
double work_after(const std::vector<double>& change, const Moved& moved,
                  double tolerance, int n) {
  double worst = 1, work = 0;
  for (std::size_t p = 0; p < change.size(); ++p)
    worst = std::max(
        worst, change[p] / (tolerance * std::abs(moved.parts[p].added.mean())));
  for (; worst > 1 && n < kMostSubsteps; worst /= 4) work += n *= 2;
  return work;
}

Settled settle(const MovingPhase& phase, double tolerance, std::size_t step,
               const Progress& progress) {
  Unfolding runs(progress);
  Moved coarse = phase.run(1, runs.next(1, kFirstGuess));
  double to_come = kFirstGuess - 2;
  for (int n = 2;; n *= 2) {
    Moved fine = phase.run(n, runs.next(n, std::max(to_come, kReserve * n)));
    to_come = 2 * n;
    if (coarse.whole && fine.whole) {
      std::vector<double> change = changes(coarse, fine);
      if (within(change, fine, tolerance) || n >= kMostSubsteps) {
        progress.at(1);
        return {std::move(fine), n, std::move(change)};
      }
      to_come = work_after(change, fine, tolerance, n) - 2 * n;
    } else if (!fine.whole && n >= kEnoughToFold) {
      folds(fine, step);
    }
    coarse = std::move(fine);
  }
}

/// The mesh's bars hold for the shape as drawn: relative to the thickness they
/// are taken over.
void follow(MeshErrors::OfPart& errors, const CoatSpread& unmoved,
            const CoatSpread& grown) {
  const auto stretch = [](double& error, double before, double after) {
    if (before > 0) error *= std::max(1.0, after / before);
  };
  stretch(errors.least, unmoved.thickness.min, grown.thickness.min);
  stretch(errors.mean, unmoved.thickness.mean, grown.thickness.mean);
  stretch(errors.largest, unmoved.thickness.max, grown.thickness.max);
  stretch(errors.least_judged, unmoved.least_judged.value,
          grown.least_judged.value);
}

/// Steps are counted where there are several, else the substeps.
Stage stage(const Schedule& s, std::size_t phase) {
  if (s.steps.size() == 1) return {"growing"};
  return {"growing", "step", phase + 1, s.steps.size()};
}

}  // namespace

void grow(Schedule& s, const Case& c, const Progress& progress) {
  Growth g;
  const Model& model = s.steps.front().solved->model;
  const std::size_t parts = model.surfaces.size();
  g.errors.assign(parts, 0);
  g.volume.assign(parts, 0);
  g.unmoved = s.spreads;
  g.area_drawn = g.area_grown = model.scale.part_area;
  double largest = 0;
  for (const CoatSpread& spread : s.spreads)
    largest = std::max(largest, spread.thickness.max);

  std::vector<Carried> carried(parts);
  for (std::size_t k = 0; k < s.steps.size(); ++k) {
    SolvedStep& step = s.steps[k];
    const std::size_t said = s.phases[k].step;
    const auto grown = std::make_shared<Certified>(*step.solved);
    MovingPhase phase(*step.solved, step.used, step.growth, largest);
    Moved none;
    none.folded = phase.begin(carried);
    if (none.folded) folds(none, said);
    if (step.growth <= 0) {
      g.substeps.push_back(0);
      continue;
    }
    const Settled settled =
        settle(phase, c.accuracy.tolerance, said,
               progress.piece(k, s.steps.size()).named(stage(s, k)));
    phase.take(settled.moved.mesh, carried);
    grown->outcome =
        outcome_of(*step.solved, step.used, settled.moved, step.growth);
    for (std::size_t p = 0; p < parts; ++p) {
      MeshErrors::OfPart& e = grown->errors.parts[p];
      for (double* error : {&e.least, &e.mean, &e.largest, &e.least_judged})
        *error += settled.change[p] / step.growth;
    }
    step.solved = grown;
    g.substeps.push_back(settled.substeps);
    g.area_drawn = grown->model.scale.part_area;
    g.area_grown = settled.moved.area;
    for (std::size_t p = 0; p < parts; ++p) {
      g.errors[p] += settled.change[p];
      g.volume[p] += step.growth * settled.moved.parts[p].current;
    }
  }

  std::vector<const Outcome*> outcomes;
  std::vector<double> growth;
  for (const SolvedStep& step : s.steps) {
    outcomes.push_back(&step.solved->outcome);
    growth.push_back(step.growth);
  }
  Laid laid = lay_down(s, c, outcomes, growth);
  s.coats = std::move(laid.coats);
  s.spreads = std::move(laid.spreads);
  for (std::size_t p = 0; p < parts; ++p) {
    follow(s.errors[p], g.unmoved[p], s.spreads[p]);
    for (double* e : {&s.errors[p].least, &s.errors[p].mean,
                      &s.errors[p].largest, &s.errors[p].least_judged})
      *e += g.errors[p];
  }
  s.growth = std::move(g);
}

}  // namespace thinspot::solver
