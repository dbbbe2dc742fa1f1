#include "solver/sensitivity.hpp"

#include "solver/input_changes.hpp"
#include "solver/step_dual.hpp"
#include "solver/step_figures.hpp"

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
    lay_as_drawn();
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
      slopes.value = value_of(s_, figures_[f]);
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
  /// What the currents of the surface as drawn leave.
  void lay_as_drawn() {
    if (!s_.growth) {
      laid_ = {s_.coats, s_.spreads};
      return;
    }
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
    laid_ = lay_down(s_, case_, seen, growth);
  }

  /// Of each figure in each step: its derivative by the step's numbers.
  void find_slopes() {
    const std::size_t count = figures_.size(), steps = s_.steps.size();
    bend_.assign(count, "");
    drawn_.assign(count, 0);
    values_.assign(count, std::vector<double>(steps, 0));
    by_.assign(count, std::vector<VectorXd>(steps));
    std::vector<const WorkingPoint*> points;
    for (const auto& dual : duals_) points.push_back(&dual->point());
    const StepFigures of_steps(s_, case_, laid_, points);
    for (std::size_t k = 0; k < steps; ++k) find_in(k, of_steps);
    for (std::size_t f = 0; f < count; ++f) {
      if (!of_steps.exists(figures_[f])) {
        bend_[f] = "no surface of it counts";
        values_[f].assign(steps, std::numeric_limits<double>::quiet_NaN());
      }
      for (std::size_t k = 0; k < steps; ++k)
        drawn_[f] += factor(f, k) * values_[f][k];
    }
  }

  void find_in(std::size_t k, const StepFigures& of_steps) {
    const std::size_t first = first_[k];
    std::vector<FigureInStep> in;
    std::vector<StepFigure> asked;
    std::vector<std::size_t> which;
    for (std::size_t f = 0; f < figures_.size(); ++f) {
      const bool voltage = figures_[f].kind == Kind::voltage;
      if (voltage && figures_[f].of != k) continue;
      if (!voltage && first < k) {
        values_[f][k] = values_[f][first];
        by_[f][k] = by_[f][first];
        continue;
      }
      which.push_back(f);
      in.push_back(of_steps.in_step(figures_[f], k));
      asked.push_back(in.back().figure);
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
  Laid laid_;                      // on the surface as drawn
  std::vector<std::string> bend_;  // of each figure
  std::vector<double> drawn_;      // value on the surface as drawn
  // Of figures and steps, for a growth of 1.
  std::vector<std::vector<double>> values_;
  std::vector<std::vector<VectorXd>> by_;
};

}  // namespace

double value_of(const Schedule& s, const FigureOf& f) {
  switch (f.kind) {
    case Kind::voltage:
      return s.steps[f.of].solved->outcome.point.terminal_voltage;
    case Kind::probe: return s.probe_thickness[f.of];
    case Kind::mean: return s.spreads[f.of].thickness.mean;
    case Kind::least: return s.spreads[f.of].least.value;
    case Kind::largest: return s.spreads[f.of].largest.value;
    case Kind::least_judged: break;
  }
  return s.spreads[f.of].least_judged.value;
}

Sensitivities sensitivities(const Schedule& schedule, const Case& c,
                            const std::vector<FigureOf>& figures) {
  return Finder(schedule, c, figures).find();
}

}  // namespace thinspot::solver
