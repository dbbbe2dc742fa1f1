#include "solver/moved_inputs.hpp"

#include "mesh/errors.hpp"
#include "solver/answered_again.hpp"

#include <stdexcept>
#include <utility>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::VectorXd;

std::vector<double> figures(const Outcome& last,
                            const std::vector<CoatSpread>& spreads) {
  std::vector<double> f{last.point.terminal_voltage, last.point.total_current};
  for (const AtRectifier& r : last.point.rectifiers)
    f.insert(f.end(), {r.voltage, r.current});
  for (std::size_t p = 0; p < spreads.size(); ++p) {
    const Spread& t = spreads[p].thickness;
    const Spread& i = last.parts[p].current_density_spread;
    for (double x : {t.min, t.mean, t.max, i.min, i.mean, i.max,
                     spreads[p].least_judged.value})
      f.push_back(x);
  }
  return f;
}

/// Thickness at the nodes of a coat from another on the same edges: where
/// something jumps on one and not on the other, their nodes differ.
void copy_along(const Coat& on, const Coat& moved, Eigen::Ref<VectorXd> nodes) {
  const auto& loops = on.surface.loops;
  for (std::size_t l = 0; l < loops.size(); ++l) {
    const auto& there = moved.surface.loops.at(l).edges;
    if (there.size() != loops[l].edges.size())
      throw std::logic_error("coats of the same meshes differ in their edges");
    for (std::size_t k = 0; k < there.size(); ++k)
      for (std::size_t j = 0; j < 3; ++j)
        nodes(loops[l].edges[k].node[j]) = moved.thickness(there[k].node[j]);
  }
}

VectorXd row_of(const Schedule& s, const Outcome& last,
                const std::vector<Coat>& coats,
                const std::vector<CoatSpread>& spreads) {
  const RowPlaces places = row_places(s);
  const std::vector<double> f = figures(last, spreads);
  VectorXd row = VectorXd::Zero(places.size);
  row.head(places.figures) =
      VectorXd::Map(f.data(), static_cast<Index>(f.size()));
  for (std::size_t p = 0; p < coats.size(); ++p)
    copy_along(s.coats[p], coats[p],
               row.segment(places.along[p], s.coats[p].thickness.size()));
  return row;
}

}  // namespace

std::vector<LayerOfSteps> layers_in(const Schedule& s,
                                    const std::vector<Case>& cases) {
  std::vector<LayerOfSteps> layers;
  std::size_t step = 0, phase = 0;
  for (const Case& c : cases) {
    LayerOfSteps layer{c, input_groups(c), step, step + c.steps.size(), phase,
                       0};
    while (phase < s.phases.size() && s.phases[phase].step < layer.end_step)
      ++phase;
    layer.end_phase = phase;
    step = layer.end_step;
    layers.push_back(std::move(layer));
  }
  return layers;
}

RowPlaces row_places(const Schedule& s) {
  RowPlaces places;
  const Outcome& last = s.last().solved->outcome;
  places.of_parts = 2 + 2 * static_cast<Index>(last.point.rectifiers.size());
  places.figures =
      places.of_parts + RowPlaces::kOfPart * static_cast<Index>(s.coats.size());
  places.size = places.figures;
  for (const Coat& coat : s.coats) {
    places.along.push_back(places.size);
    places.size += coat.thickness.size();
  }
  return places;
}

VectorXd row_as_solved(const Schedule& s) {
  return row_of(s, s.last().solved->outcome, s.coats, s.spreads);
}

VectorXd row_of_mesh_errors(const Schedule& s) {
  const MeshErrors& e = s.last().solved->errors;
  std::vector<double> f{e.voltage, e.current};
  for (const MeshErrors::OfRectifier& r : e.rectifiers)
    f.insert(f.end(), {r.voltage, r.current});
  for (std::size_t p = 0; p < s.errors.size(); ++p) {
    const MeshErrors::OfPart &t = s.errors[p], &i = e.parts[p];
    for (double x : {t.least, t.mean, t.largest, i.least, i.mean, i.largest,
                     t.least_judged})
      f.push_back(x);
  }
  VectorXd row = VectorXd::Zero(row_places(s).size);
  row.head(static_cast<Index>(f.size())) =
      VectorXd::Map(f.data(), static_cast<Index>(f.size()));
  return row;
}

/// What every phase leaves, and who keeps what was answered anew.
struct MovedInputs::Phases {
  std::vector<const Outcome*> seen;
  std::vector<double> growth;
  std::vector<std::shared_ptr<const Outcome>> kept;
};

/// All phases of one layer.
void MovedInputs::answer(const LayerOfSteps& layer, Phases& phases) const {
  Case used = layer.used;
  used.probes.clear();
  const AnsweredPhases answered =
      answered_phases(schedule_, used, layer.first_step, layer.first_phase);
  for (std::size_t k = layer.first_phase; k < layer.end_phase; ++k) {
    const std::size_t own = k - layer.first_phase;
    phases.kept[k] = answered.outcomes[own];
    phases.seen[k] = phases.kept[k].get();
    phases.growth[k] = answered.growth[own];
  }
}

VectorXd MovedInputs::row(const std::vector<LayerOfSteps>& layers) const {
  const Schedule& s = schedule_;
  Phases phases;
  phases.kept.resize(s.steps.size());
  for (const SolvedStep& step : s.steps) {
    phases.seen.push_back(&step.solved->outcome);
    phases.growth.push_back(step.growth);
  }
  bool last_works = true;
  std::size_t dead = 0;
  for (const LayerOfSteps& layer : layers) {
    try {
      answer(layer, phases);
    } catch (const CaseError&) {
      for (std::size_t k = layer.first_phase; k < layer.end_phase; ++k) {
        phases.seen[k] = &s.steps[k].solved->outcome;
        phases.growth[k] = 0;
      }
      dead += layer.end_phase - layer.first_phase;
      if (layer.end_phase == s.steps.size()) last_works = false;
    }
  }
  if (dead == s.steps.size()) return VectorXd::Zero(row_places(s).size);
  const Laid laid =
      lay_down(s, layers.front().used, phases.seen, phases.growth);
  if (last_works)
    return row_of(s, *phases.seen.back(), laid.coats, laid.spreads);
  Outcome last = *phases.seen.back();
  last.point.terminal_voltage = last.point.total_current = 0;
  for (AtRectifier& r : last.point.rectifiers) r.voltage = r.current = 0;
  for (PartOutcome& part : last.parts) part.current_density_spread = {};
  return row_of(s, last, laid.coats, laid.spreads);
}

}  // namespace thinspot::solver
