#include "solver/what_if.hpp"

#include "mesh/errors.hpp"
#include "solver/element.hpp"
#include "solver/schedule.hpp"
#include "solver/settings.hpp"
#include "solver/what_if_places.hpp"
#include "solver/what_if_samples.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Of the parts' current densities, over their means: a tenth of what a
/// reader may be told wrong.
constexpr double kReduced = 1e-4;
/// Numbers that a page may carry.
constexpr double kMostNumbers = 350000;
constexpr std::size_t kMostTurns = 96;

/// Index of a turn, added where it is not there yet.
std::size_t turn_at(std::vector<double>& angles, double angle) {
  const double whole = 2 * std::numbers::pi;
  for (std::size_t k = 0; k < angles.size(); ++k)
    if (std::abs(std::remainder(angles[k] - angle, whole)) < 1e-9) return k;
  angles.push_back(angle);
  return angles.size() - 1;
}

double turn_of(const Case& used) { return used.section.motion.turn; }

bool is_curved(const Schedule& s, const Group& g, std::size_t electrode) {
  return std::any_of(g.phases.begin(), g.phases.end(), [&](std::size_t k) {
    return s.steps[k].solved->outcome.point.laws[electrode].tangent != nullptr;
  });
}

WhatIfElectrode electrode_on(const ReducedResponse& r, const Electrode& e,
                             bool curved) {
  WhatIfElectrode on;
  on.solid = e.solid;
  on.measure = e.measure;
  const MatrixXd basis = r.basis(e.rows, Eigen::all);
  on.mass = basis.transpose() * (e.mass * basis);
  on.weight = basis.transpose() * e.weight;
  if (!curved) return on;
  const auto points = static_cast<Index>(4 * e.edges.size());
  on.gauss.resize(points, r.size());
  on.size.resize(points);
  Index row = 0;
  for (const ElectrodeEdge& edge : e.edges)
    for (std::size_t q = 0; q < 4; ++q, ++row) {
      const Eigen::Vector3d n = edge_functions(gauss_rule()[q].t);
      on.gauss.row(row) = n(0) * basis.row(edge.place[0]) +
                          n(1) * basis.row(edge.place[1]) +
                          n(2) * basis.row(edge.place[2]);
      on.size(row) = edge.size[q];
    }
  return on;
}

/// Current density at conductivity 1 at the rows of a part that holds its
/// potential, of each basis function.
MatrixXd held_density(const Response& response, std::size_t electrode,
                      const MatrixXd& reaction, const LocalLaws& laws) {
  const Electrode& e = response.electrodes().each[electrode];
  UnitAnswers unit;
  const MatrixXd share =
      held_shares(response.electrodes(), reaction.rows(), laws);
  unit.leaving.resize(response.count());
  unit.leaving[electrode] =
      -(share(e.rows, static_cast<Index>(electrode)).asDiagonal() *
        reaction(e.rows, Eigen::all));
  MatrixXd density(static_cast<Index>(e.rows.size()), reaction.cols());
  for (Index j = 0; j < reaction.cols(); ++j)
    density.col(j) = response.current_density(
        electrode, unit, VectorXd::Unit(reaction.cols(), j), 0);
  return density;
}

/// What each geometry's functions are along a part's coat: all laid down
/// together, so that their nodes are the same.
class CoatOfFunctions {
 public:
  CoatOfFunctions(const Schedule& s, std::size_t part)
      : schedule_(s), part_(part) {}

  void add(const Group& g, const MatrixXd& functions) {
    const Model& model = *g.model;
    const Surface& surface = model.surfaces[part_];
    const Solution& solution = schedule_.steps[g.phases.front()].used.solution;
    const Index first = static_cast<Index>(columns_.size());
    for (Index j = 0; j < functions.cols(); ++j) {
      columns_.push_back(functions.col(j));
      steps_.push_back({&solid_of(model, surface), &surface, &model.mesh,
                        nullptr, 1, &solution});
    }
    ranges_.push_back({first, functions.cols()});
  }

  void lay(const mesh::Outline& drawn, mesh::Cut cut, double depth) {
    for (std::size_t k = 0; k < steps_.size(); ++k)
      steps_[k].density = &columns_[k];
    coat_ = lay_down(drawn, cut, depth, steps_);
  }

  const Coat& coat() const { return coat_; }
  MatrixXd at_nodes(std::size_t addition) const {
    return coat_.density.middleCols(ranges_[addition].first,
                                    ranges_[addition].second);
  }

 private:
  const Schedule& schedule_;
  std::size_t part_;
  std::vector<VectorXd> columns_;
  std::vector<StepOnPart> steps_;
  std::vector<std::pair<Index, Index>> ranges_;
  Coat coat_;
};

/// Those that turned_by changes.
std::vector<WhatIfKey> keys_turned(Case c, double current, double conductivity,
                                   double polarization) {
  std::vector<double> after;
  Case turned = turned_by(c, current, conductivity, polarization);
  for_each_quantity(turned, [&](const std::string&, Quantity& q) {
    after.push_back(q.value);
  });
  std::vector<WhatIfKey> keys;
  auto next = after.begin();
  for_each_quantity(c, [&](const std::string& key, Quantity& q) {
    if (*next++ != q.value) keys.push_back({key, q.value});
  });
  return keys;
}

class Maker {
 public:
  Maker(const Schedule& s, const Case& c) : schedule_(s), case_(c) {}

  WhatIf make() {
    what_.scale = schedule_.steps.front().solved->model.scale;
    what_.by_density = schedule_.by_density();
    what_.current = keys_turned(case_, 2, 1, 1);
    what_.conductivity = keys_turned(case_, 1, 2, 1);
    what_.polarization = keys_turned(case_, 1, 1, 2);
    groups_ = groups_of(schedule_);
    add_steps();
    for (Group& g : groups_) add_geometry(g);
    for (std::size_t p = 0; p < schedule_.coats.size(); ++p) add_part(p);
    return std::move(what_);
  }

 private:
  std::size_t group_of(std::size_t phase) const {
    for (std::size_t g = 0; g < groups_.size(); ++g)
      for (std::size_t k : groups_[g].phases)
        if (k == phase) return g;
    return 0;
  }

  void add_steps() {
    for (std::size_t k = 0; k < schedule_.phases.size(); ++k) {
      const std::size_t of = schedule_.phases[k].step;
      const SolvedStep& phase = schedule_.steps[k];
      const std::size_t g = group_of(k);
      Group& group = groups_[g];
      if (of >= what_.steps.size()) {
        WhatIfStep step;
        step.used = phase.used;
        step.used.steps.front().duration = case_.steps[of].duration;
        step.used.steps.front().turning = case_.steps[of].turning;
        step.geometry = g;
        const WorkingPoint& w = phase.solved->outcome.point;
        step.laws =
            laws_of(phase.used, phase.solved->model.response.electrodes());
        for (const ElectrodeLaw& law : w.laws) {
          step.resistance.push_back(law.resistance);
          step.over.push_back(law.tangent ? law.tangent->over.nodes.mean() : 0);
        }
        what_.steps.push_back(std::move(step));
      }
      const double duration = case_.steps[of].duration.value;
      const double own = phase.used.steps.front().duration.value;
      what_.steps[of].turns.push_back(
          {turn_at(group.angles, group.turnable < 0 ? 0 : turn_of(phase.used)),
           duration > 0 ? own / duration : 1});
    }
    for (std::size_t of = 0; of < what_.steps.size(); ++of) {
      add_angles(of);
      add_positions(of);
    }
  }

  /// All angles of a turning step, also those that its duration leaves out.
  void add_angles(std::size_t of) {
    WhatIfStep& step = what_.steps[of];
    Group& group = groups_[step.geometry];
    const std::optional<Turning>& turning = case_.steps[of].turning;
    if (!turning || group.turnable < 0) return;
    const int count =
        turning->positions > 0 ? turning->positions : schedule_.angles[of];
    const double sense = turning->rate < 0 ? -1 : 1;
    for (int k = 0; k < count; ++k)
      step.angles.push_back(
          turn_at(group.angles, case_.steps[of].motion.turn +
                                    sense * 2 * std::numbers::pi * k / count));
  }

  /// Where a step's part may turn to.
  void add_positions(std::size_t of) {
    WhatIfStep& step = what_.steps[of];
    Group& group = groups_[step.geometry];
    const bool part_held =
        std::any_of(group.model->surfaces.begin(), group.model->surfaces.end(),
                    [&](const Surface& s) { return group.held[s.electrode]; });
    if (group.turnable < 0 || part_held) return;
    if (group.angles.size() + kTurnPositions > kMostTurns) return;
    for (int k = 0; k < kTurnPositions; ++k)
      step.positions.push_back(
          turn_at(group.angles, case_.steps[of].motion.turn +
                                    2 * std::numbers::pi * k / kTurnPositions));
  }

  void add_responses(Group& g) const {
    if (g.turnable < 0) {
      g.turned.push_back(g.model->response);
      return;
    }
    const Turnable& turnable =
        schedule_.turns[static_cast<std::size_t>(g.turnable)].turnable;
    Case c = schedule_.steps[g.phases.front()].used;
    for (double angle : g.angles) {
      c.section.motion.turn = angle;
      g.turned.push_back(turned_response(turnable, c, 0));
    }
  }

  void add_geometry(Group& g) {
    add_responses(g);
    std::vector<std::size_t> parts;
    for (const Surface& s : g.model->surfaces) parts.push_back(s.electrode);
    const SolvedStep& first = schedule_.steps[g.phases.front()];
    const LocalLaws laws(resistances_of(first.solved->outcome.point.laws));
    reduced_.push_back(reduced(g.turned, first.used.solution.conductivity.value,
                               laws, Sampler(schedule_, g), kReduced, parts));
    const ReducedResponse& r = reduced_.back();
    WhatIfGeometry geometry;
    geometry.rows = r.basis.rows();
    geometry.held = r.held;
    geometry.stiffness = r.stiffness;
    geometry.error = r.error;
    geometry.samples = r.samples;
    const Electrodes& electrodes = g.model->response.electrodes();
    for (std::size_t e = 0; e < electrodes.each.size(); ++e) {
      WhatIfElectrode on =
          electrode_on(r, electrodes.each[e], is_curved(schedule_, g, e));
      for (std::size_t p = 0; p < parts.size(); ++p)
        if (parts[p] == e) on.part = static_cast<int>(p);
      geometry.electrodes.push_back(std::move(on));
    }
    geometry.parts.resize(parts.size());
    what_.geometries.push_back(std::move(geometry));
  }

  void add_part(std::size_t p) {
    CoatOfFunctions functions(schedule_, p);
    for (std::size_t g = 0; g < groups_.size(); ++g) {
      const Group& group = groups_[g];
      const ReducedResponse& r = reduced_[g];
      const std::size_t electrode = group.model->surfaces[p].electrode;
      const auto& rows =
          group.model->response.electrodes().each[electrode].rows;
      functions.add(group, r.basis(rows, Eigen::all));
      functions.add(group, VectorXd::Ones(static_cast<Index>(rows.size())));
      if (!group.held[electrode]) continue;
      LocalLaws laws;
      for (bool held : group.held) laws.resistance.push_back(held ? 0 : 1);
      for (std::size_t t = 0; t < group.turned.size(); ++t)
        functions.add(group, held_density(group.turned[t], electrode,
                                          r.reaction[t], laws));
    }
    const mesh::Outline& drawn = drawn_outline(schedule_, p);
    functions.lay(drawn, schedule_.drawn.cut, what_.scale.depth);
    std::size_t addition = 0;
    for (std::size_t g = 0; g < groups_.size(); ++g) {
      const std::size_t electrode = groups_[g].model->surfaces[p].electrode;
      WhatIfOnPart& on = what_.geometries[g].parts[p];
      on.potential = functions.at_nodes(addition++);
      on.wetted = functions.at_nodes(addition++);
      if (!groups_[g].held[electrode]) continue;
      for (std::size_t t = 0; t < groups_[g].turned.size(); ++t)
        on.held.push_back(functions.at_nodes(addition++));
    }
    what_.parts.push_back(
        what_if_part(schedule_, case_, p, drawn, functions.coat()));
  }

  const Schedule& schedule_;
  const Case& case_;
  WhatIf what_;
  std::vector<Group> groups_;
  std::vector<ReducedResponse> reduced_;
};

double numbers_in(const WhatIf& what) {
  double count = 0;
  for (const WhatIfGeometry& g : what.geometries) {
    for (const MatrixXd& s : g.stiffness)
      count += 0.5 * static_cast<double>(s.size());
    for (const WhatIfElectrode& e : g.electrodes)
      count += 0.5 * static_cast<double>(e.mass.size()) +
               static_cast<double>(e.gauss.size());
    for (const WhatIfOnPart& p : g.parts) {
      count += static_cast<double>(p.potential.size());
      for (const MatrixXd& d : p.held) count += static_cast<double>(d.size());
    }
  }
  return count;
}

}  // namespace

Case turned_by(Case c, double current, double conductivity,
               double polarization) {
  const auto scale = [](Quantity& q, double by) { q.value *= by; };
  const auto drive = [&](Quantity& setting) { scale(setting, current); };
  for_each_setting(c, drive);
  scale(c.solution.conductivity, conductivity);
  for (Step& step : c.steps)
    if (step.conductivity) scale(*step.conductivity, conductivity);
  const auto stretch = [&](Polarization& p) {
    for (Quantity* q : {&p.resistance, &p.tafel_slope, &p.reverse_tafel_slope})
      scale(*q, polarization);
  };
  stretch(c.cathode);
  for (Thief& t : c.thieves)
    if (t.polarization) stretch(*t.polarization);
  return c;
}

WhatIfAnswer what_if(const Schedule& schedule, const Case& c) {
  if (schedule.growth)
    return {{}, "the part's surface moves with its deposit in this case"};
  for (const SolvedStep& step : schedule.steps) {
    const Electrodes& all = step.solved->model.response.electrodes();
    if (static_cast<Index>(all.nodes.mesh_node.size()) > kMostDenseRows)
      return {{}, "there is more metal in the tank than a page can answer for"};
  }
  try {
    WhatIf what = Maker(schedule, c).make();
    if (numbers_in(what) > kMostNumbers)
      return {{}, "it would take more numbers than a page can carry"};
    return {std::move(what), ""};
  } catch (const NoResultError& error) {
    return {{}, error.what()};
  }
}

}  // namespace thinspot::solver
