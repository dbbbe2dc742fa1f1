#include "solver/step_figures.hpp"

#include "solver/coat_trace.hpp"
#include "solver/efficiency.hpp"
#include "solver/window.hpp"

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::VectorXd;
using Kind = FigureOf::Kind;

double depositing_at(const Solution& s, double density, FigureInStep& in,
                     double weight) {
  const auto slope = depositing_slope(s, density);
  if (!slope && weight != 0)
    in.bend = "current density is just on a point of the efficiency's table";
  return slope.value_or(0);
}

/// Another that gives as much as the one whose voltage is told: more from it,
/// and its voltage is told instead.
bool as_much_as_leading(const WorkingPoint& w) {
  constexpr double alike = 1 - 1e-8;
  for (std::size_t r = 0; r < w.rectifiers.size(); ++r)
    if (r != w.leading &&
        w.rectifiers[r].current >= alike * w.rectifiers[w.leading].current)
      return true;
  return false;
}

}  // namespace

bool StepFigures::exists(const FigureOf& f) const {
  if (f.kind == Kind::mean || f.kind == Kind::probe || f.kind == Kind::voltage)
    return true;
  const Extreme& window = window_of(f);
  return window.to > window.from;
}

FigureInStep StepFigures::in_step(const FigureOf& f, std::size_t k) const {
  if (f.kind == Kind::probe) return at_probe(f, k);
  if (f.kind != Kind::voltage) return on_coat(f, k);
  FigureInStep in;
  in.figure.voltage = 1;
  in.value = points_[k]->terminal_voltage;
  if (as_much_as_leading(*points_[k]))
    in.bend = "two rectifiers give alike, and the voltage is that of one";
  return in;
}

const Extreme& StepFigures::window_of(const FigureOf& f) const {
  const CoatSpread& spread = laid_.spreads[f.of];
  if (f.kind == Kind::least) return spread.least;
  return f.kind == Kind::largest ? spread.largest : spread.least_judged;
}

StepFigures::Sum StepFigures::sum_of(const FigureOf& f) const {
  const Coat& coat = laid_.coats[f.of];
  Sum sum;
  const Index nodes = coat.thickness.size();
  if (f.kind != Kind::mean) {
    sum.weights = window_average(coat.surface, window_of(f), nodes).weights;
    return sum;
  }
  if (!case_.growth && !s_.by_density()) {
    sum.currents = 1 / coat.area;
    return sum;
  }
  sum.weights = VectorXd::Zero(nodes);
  for (std::size_t l = 0; l < coat.weights.size(); ++l)
    for (std::size_t k = 0; k < coat.weights[l].size(); ++k)
      for (std::size_t j = 0; j < 3; ++j)
        sum.weights(coat.surface.loops[l].edges[k].node[j]) +=
            coat.weights[l][k](static_cast<Index>(j)) / coat.area;
  return sum;
}

FigureInStep StepFigures::on_coat(const FigureOf& f, std::size_t k) const {
  const Sum sum = sum_of(f);
  const SolvedStep& step = s_.steps[k];
  const Model& model = step.solved->model;
  const Surface& surface = model.surfaces[f.of];
  const Electrode& electrode =
      model.response.electrodes().each[surface.electrode];
  const WorkingPoint& w = *points_[k];
  FigureInStep in;
  in.figure.electrode = surface.electrode;
  if (sum.currents > 0) {
    const auto e = static_cast<Index>(surface.electrode);
    in.figure.current = VectorXd::Zero(w.current.size());
    in.figure.current(e) = sum.currents;
    in.value = sum.currents * w.current(e);
    return in;
  }
  const Coat& coat = laid_.coats[f.of];
  const VectorXd density = coat.density.col(static_cast<Index>(k));
  const Solution& solution = step.used.solution;
  in.value = sum.weights.dot(depositing(solution, density));
  VectorXd weights = sum.weights;
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

FigureInStep StepFigures::at_probe(const FigureOf& f, std::size_t k) const {
  const SolvedStep& step = s_.steps[k];
  const Model& model = step.solved->model;
  const Surface& surface = model.surfaces.front();
  const Extreme& window = step.solved->outcome.probes[f.of].window;
  FigureInStep in;
  if (!(window.to > window.from)) return in;  // dry
  const Electrode& electrode =
      model.response.electrodes().each[surface.electrode];
  in.figure.electrode = surface.electrode;
  in.figure.density =
      window_average(surface, window, static_cast<Index>(electrode.rows.size()))
          .weights;
  const double density = in.figure.density.dot(
      current_density(model.response, *points_[k], surface.electrode));
  const Solution& solution = step.used.solution;
  in.value = depositing(solution, density);
  in.figure.density *= depositing_at(solution, density, in, 1);
  return in;
}

}  // namespace thinspot::solver
