#include "solver/sensitivity.hpp"

#include "solver/coat_trace.hpp"
#include "solver/efficiency.hpp"
#include "solver/input_changes.hpp"
#include "solver/step_dual.hpp"
#include "solver/window.hpp"

#include <cmath>
#include <limits>
#include <memory>
#include <utility>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;
using Kind = FigureOf::Kind;

/// A figure's part in one step, for a growth of 1.
struct InStep {
  StepFigure figure;
  double value = 0;
  std::string bend;
};

/// A figure as what is summed up of all steps.
struct Laying {
  VectorXd weights;     ///< on the coat's nodes; empty: none
  double currents = 0;  ///< on the part's current [1/m2]
};

double depositing_at(const Solution& s, double density, InStep& in,
                     double weight) {
  const auto slope = depositing_slope(s, density);
  if (!slope && weight != 0)
    in.bend = "current density is just on a point of the efficiency's table";
  return slope.value_or(0);
}

class Finder {
 public:
  Finder(const Schedule& s, const Case& c, const std::vector<FigureOf>& figures)
      : s_(s), case_(c), figures_(figures) {
    for (const SolvedStep& step : s.steps) {
      // Steps that share a solution share its duals.
      std::size_t first = 0;
      while (s.steps[first].solved != step.solved) ++first;
      first_.push_back(first);
      const bool own = first + 1 == first_.size();
      duals_.push_back(
          own ? std::make_shared<const StepDual>(step.solved->model, step.used,
                                                 step.solved->outcome.point)
              : duals_[first]);
    }
    if (s.growth) lay_as_drawn();
  }

  Sensitivities find() {
    Sensitivities found;
    find_slopes();
    const std::vector<InputChange> changes = input_changes(s_, case_);
    for (const InputChange& change : changes) {
      found.keys.push_back(change.key);
      found.at.push_back(change.at);
    }
    for (std::size_t f = 0; f < figures_.size(); ++f) {
      FigureSlopes slopes;
      slopes.value = value_of(figures_[f]);
      slopes.bend = bend_[f];
      const double share =
          s_.growth && drawn_[f] != 0 ? slopes.value / drawn_[f] : 1;
      for (const InputChange& change : changes) {
        const double by = share * slope(f, change);
        slopes.by.push_back(std::isfinite(by) ? std::optional(by)
                                              : std::nullopt);
      }
      found.figures.push_back(std::move(slopes));
    }
    return found;
  }

 private:
  const std::vector<Coat>& coats() const {
    return s_.growth ? as_drawn_.coats : s_.coats;
  }
  const std::vector<CoatSpread>& spreads() const {
    return s_.growth ? as_drawn_.spreads : s_.spreads;
  }

  /// What the currents of the surface as drawn leave.
  void lay_as_drawn() {
    std::vector<Outcome> outcomes;
    std::vector<const Outcome*> seen;
    std::vector<double> growth;
    outcomes.reserve(s_.steps.size());
    for (std::size_t k = 0; k < s_.steps.size(); ++k) {
      const Model& model = s_.steps[k].solved->model;
      Outcome& o = outcomes.emplace_back(s_.steps[k].solved->outcome);
      const WorkingPoint& w = duals_[k]->point();
      for (std::size_t p = 0; p < o.parts.size(); ++p) {
        const std::size_t e = model.surfaces[p].electrode;
        o.parts[p].current_density = current_density(model.response, w, e);
        o.parts[p].current = w.current(static_cast<Index>(e));
      }
      seen.push_back(&o);
      growth.push_back(s_.steps[k].growth);
    }
    as_drawn_ = lay_down(s_, case_, seen, growth);
  }

  /// The window whose average a figure is.
  const Extreme& window_of(const FigureOf& f) const {
    const CoatSpread& spread = spreads()[f.of];
    if (f.kind == Kind::least) return spread.least;
    return f.kind == Kind::largest ? spread.largest : spread.least_judged;
  }

  double value_of(const FigureOf& f) const {
    const auto of = [&](const CoatSpread& spread) {
      switch (f.kind) {
        case Kind::least: return spread.least.value;
        case Kind::largest: return spread.largest.value;
        case Kind::mean: return spread.thickness.mean;
        default: return spread.least_judged.value;
      }
    };
    if (f.kind == Kind::probe) return s_.probe_thickness[f.of];
    if (f.kind == Kind::voltage)
      return s_.steps[f.of].solved->outcome.point.terminal_voltage;
    return of(s_.spreads[f.of]);
  }

  /// Of thickness along the coat, or by the part's current.
  Laying laying_of(const FigureOf& f) const {
    const Coat& coat = coats()[f.of];
    Laying laying;
    const Index nodes = coat.thickness.size();
    if (f.kind != Kind::mean) {
      laying.weights =
          window_average(coat.surface, window_of(f), nodes).weights;
      return laying;
    }
    if (!case_.growth && !s_.by_density()) {
      laying.currents = 1 / coat.area;
      return laying;
    }
    laying.weights = VectorXd::Zero(nodes);
    for (std::size_t l = 0; l < coat.weights.size(); ++l)
      for (std::size_t k = 0; k < coat.weights[l].size(); ++k)
        for (std::size_t j = 0; j < 3; ++j)
          laying.weights(coat.surface.loops[l].edges[k].node[j]) +=
              coat.weights[l][k](static_cast<Index>(j)) / coat.area;
    return laying;
  }

  InStep on_coat(const FigureOf& f, const Laying& laying, std::size_t k) const {
    const SolvedStep& step = s_.steps[k];
    const Model& model = step.solved->model;
    const Surface& surface = model.surfaces[f.of];
    const Electrode& electrode =
        model.response.electrodes().each[surface.electrode];
    const WorkingPoint& w = duals_[k]->point();
    InStep in;
    in.figure.electrode = surface.electrode;
    if (laying.currents > 0) {
      const auto e = static_cast<Index>(surface.electrode);
      in.figure.current = VectorXd::Zero(w.current.size());
      in.figure.current(e) = laying.currents;
      in.value = laying.currents * w.current(e);
      return in;
    }
    const Coat& coat = coats()[f.of];
    const VectorXd density = coat.density.col(static_cast<Index>(k));
    const Solution& solution = step.used.solution;
    in.value = laying.weights.dot(depositing(solution, density));
    VectorXd weights = laying.weights;
    for (Index n = 0; n < weights.size(); ++n)
      weights(n) *= depositing_at(solution, density(n), in, weights(n));
    const StepOnPart on{&solid_of(model, surface),
                        &surface,
                        &model.mesh,
                        nullptr,
                        step.growth,
                        &solution};
    in.figure.density =
        on_nodes_of_step(coat, drawn_outline(s_, f.of), on, weights,
                         static_cast<Index>(electrode.rows.size()));
    return in;
  }

  InStep at_probe(const FigureOf& f, std::size_t k) const {
    const SolvedStep& step = s_.steps[k];
    const Model& model = step.solved->model;
    const Surface& surface = model.surfaces.front();
    const Extreme& window = step.solved->outcome.probes[f.of].window;
    InStep in;
    if (!(window.to > window.from)) return in;  // dry
    const Electrode& electrode =
        model.response.electrodes().each[surface.electrode];
    in.figure.electrode = surface.electrode;
    in.figure.density =
        window_average(surface, window,
                       static_cast<Index>(electrode.rows.size()))
            .weights;
    const double density = in.figure.density.dot(
        current_density(model.response, duals_[k]->point(), surface.electrode));
    const Solution& solution = step.used.solution;
    in.value = depositing(solution, density);
    in.figure.density *= depositing_at(solution, density, in, 1);
    return in;
  }

  /// Of each figure in each step: its derivative by the step's numbers.
  void find_slopes() {
    const std::size_t count = figures_.size(), steps = s_.steps.size();
    bend_.assign(count, "");
    drawn_.assign(count, 0);
    values_.assign(count, std::vector<double>(steps, 0));
    by_.assign(count, std::vector<VectorXd>(steps));
    std::vector<Laying> layings;
    for (const FigureOf& f : figures_)
      layings.push_back(f.kind == Kind::probe || f.kind == Kind::voltage
                            ? Laying{}
                            : laying_of(f));
    for (std::size_t k = 0; k < steps; ++k) {
      if (first_[k] < k) {
        for (std::size_t f = 0; f < count; ++f) {
          const bool voltage = figures_[f].kind == Kind::voltage;
          if (voltage) continue;
          values_[f][k] = values_[f][first_[k]];
          by_[f][k] = by_[f][first_[k]];
        }
      }
      find_in(k, layings, first_[k] < k);
    }
    for (std::size_t f = 0; f < count; ++f) {
      if (!has_window(figures_[f])) {
        bend_[f] = "no surface of it counts";
        values_[f].assign(steps, std::numeric_limits<double>::quiet_NaN());
      }
      for (std::size_t k = 0; k < steps; ++k)
        drawn_[f] += factor(f, k) * values_[f][k];
    }
  }

  bool has_window(const FigureOf& f) const {
    if (f.kind == Kind::mean || f.kind == Kind::probe ||
        f.kind == Kind::voltage)
      return true;
    const Extreme& window = window_of(f);
    return window.to > window.from;
  }

  /// @param shared  all but voltages are there already
  void find_in(std::size_t k, const std::vector<Laying>& layings, bool shared) {
    std::vector<InStep> in;
    std::vector<StepFigure> asked;
    std::vector<std::size_t> which;
    for (std::size_t f = 0; f < figures_.size(); ++f) {
      const FigureOf& figure = figures_[f];
      InStep here;
      if (figure.kind == Kind::voltage) {
        if (figure.of != k) continue;
        here.figure.voltage = 1;
        here.value = duals_[k]->point().terminal_voltage;
      } else if (shared) {
        continue;
      } else {
        here = figure.kind == Kind::probe ? at_probe(figure, k)
                                          : on_coat(figure, layings[f], k);
      }
      which.push_back(f);
      asked.push_back(here.figure);
      in.push_back(std::move(here));
    }
    if (which.empty()) return;
    const MatrixXd by = duals_[k]->by_inputs(asked);
    for (std::size_t j = 0; j < which.size(); ++j) {
      const std::size_t f = which[j];
      values_[f][k] = in[j].value;
      by_[f][k] = by.col(static_cast<Index>(j));
      const std::string& bend =
          in[j].bend.empty() ? duals_[k]->bend() : in[j].bend;
      if (bend.empty()) continue;
      bend_[f] = bend;
      by_[f][k].setConstant(std::numeric_limits<double>::quiet_NaN());
    }
  }

  double factor(std::size_t f, std::size_t k) const {
    return figures_[f].kind == Kind::voltage ? 1 : s_.steps[k].growth;
  }

  /// Not a number where there is none.
  double slope(std::size_t f, const InputChange& change) const {
    if (change.bent) return std::numeric_limits<double>::quiet_NaN();
    const bool thickness = figures_[f].kind != Kind::voltage;
    double sum = 0;
    for (std::size_t k = 0; k < s_.steps.size(); ++k) {
      const VectorXd& by = by_[f][k];
      if (by.size() == 0) continue;
      // What does not change has no say, not even where there is a bend.
      for (Index j = 0; j < by.size(); ++j)
        if (change.by.numbers[k](j) != 0 && factor(f, k) != 0)
          sum += factor(f, k) * by(j) * change.by.numbers[k](j);
      if (thickness) sum += values_[f][k] * change.by.growth[k];
    }
    return sum;
  }

  const Schedule& s_;
  const Case& case_;
  const std::vector<FigureOf>& figures_;
  std::vector<std::size_t> first_;  // step with the same solution
  std::vector<std::shared_ptr<const StepDual>> duals_;
  Laid as_drawn_;
  std::vector<std::string> bend_;  // of each figure
  std::vector<double> drawn_;      // value on the surface as drawn
  std::vector<std::vector<double>>
      values_;                             // figures, steps; for a growth of 1
  std::vector<std::vector<VectorXd>> by_;  // likewise
};

}  // namespace

Sensitivities sensitivities(const Schedule& schedule, const Case& c,
                            const std::vector<FigureOf>& figures) {
  return Finder(schedule, c, figures).find();
}

}  // namespace thinspot::solver
