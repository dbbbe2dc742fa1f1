#include "solver/fit_model.hpp"

#include "solver/answered_again.hpp"
#include "solver/test_cells.hpp"

#include <cmath>
#include <limits>
#include <map>
#include <string>
#include <utility>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;
using Kind = FigureOf::Kind;

/// Of a parameter's unit, for differences over it: their error is its square
/// times the third derivative, and 1e-10 of the working point over it.
constexpr double kStep = 1e-3;

/// Steps of the schedule for those of the case: the last phase of each.
FigureOf in_phases(const Schedule& s, FigureOf f) {
  if (f.kind != Kind::voltage) return f;
  for (std::size_t k = 0; k < s.phases.size(); ++k)
    if (s.phases[k].step == f.of) f.of = k;
  return f;
}

double figure(const Schedule& s, const ReadFigure& read) {
  const FigureOf f = in_phases(s, read.figure);
  if (read.current) return s.steps[f.of].solved->outcome.point.total_current;
  return value_of(s, f);
}

}  // namespace

FitModel::FitModel(const Case& c, const std::vector<Experiment>& experiments,
                   std::vector<FitParameter> parameters)
    : correlated_(c.correlated),
      parameters_(std::move(parameters)),
      held_(stated_slopes(parameters_, correlated_)) {
  Case copy = c;
  for_each_quantity(
      copy, [&](const std::string& key, Quantity& q) { stated_[key] = q; });
  for (const Experiment& e : experiments)
    for (const Reading& r : e.readings) {
      if (r.in == Reading::In::two_cathodes)
        cathodes_.push_back({e.content, readings_.size()});
      readings_.push_back(r);
    }
  for (FitRun& run : fit_runs(experiments))
    solved_.push_back({std::move(run), {}, {}});
}

Case FitModel::with(const Case& c, const VectorXd& x) const {
  Case moved = c;
  for_each_quantity(moved, [&](const std::string& key, Quantity& q) {
    for (std::size_t k = 0; k < parameters_.size(); ++k)
      if (parameters_[k].key == key && as_stated(key, q))
        q.value = parameters_[k].value_of(x(static_cast<Index>(k)));
  });
  return moved;
}

bool FitModel::as_stated(const std::string& key, const Quantity& q) const {
  const auto stated = stated_.find(key);
  return stated != stated_.end() && stated->second == q;
}

void FitModel::keep(const std::vector<bool>& kept) {
  std::vector<FitParameter> left;
  for (std::size_t k = 0; k < kept.size(); ++k)
    if (kept[k]) left.push_back(parameters_[k]);
  parameters_ = std::move(left);
  held_ = stated_slopes(parameters_, correlated_);
}

void FitModel::mesh(const VectorXd& x, const Progress& progress) {
  for (std::size_t n = 0; n < solved_.size(); ++n) {
    Solved& s = solved_[n];
    const double from = static_cast<double>(n),
                 count = static_cast<double>(solved_.size());
    s.schedule = run_schedule(with(s.run.content, x),
                              progress.part(from / count, (from + 1) / count));
    s.share.assign(s.run.figures.size(), 1);
    if (!s.schedule.growth) continue;
    const Schedule drawn = answer(s, x);
    for (std::size_t f = 0; f < s.share.size(); ++f) {
      // The currents tell the mass, whatever the surface does.
      const double unmoved = figure(drawn, s.run.figures[f]);
      if (!s.run.figures[f].area && unmoved != 0)
        s.share[f] = figure(s.schedule, s.run.figures[f]) / unmoved;
    }
  }
}

Schedule FitModel::answer(const Solved& s, const VectorXd& x) const {
  Case moved = with(s.run.content, x);
  moved.growth = false;
  return answered_again(s.schedule, moved);
}

double FitModel::factor(const Solved& solved, const Schedule& s,
                        std::size_t f) const {
  const ReadFigure& read = solved.run.figures[f];
  if (!read.area) return solved.share[f];
  return s.coats[read.figure.of].area *
         solved.run.content.solution.metal.density;
}

void FitModel::add_values(const Solved& solved, const Schedule& s,
                          VectorXd& values) const {
  for (std::size_t f = 0; f < solved.run.figures.size(); ++f) {
    const ReadFigure& read = solved.run.figures[f];
    values(static_cast<Index>(read.reading)) +=
        factor(solved, s, f) * figure(s, read);
  }
}

VectorXd FitModel::values(const VectorXd& x) const {
  VectorXd all = VectorXd::Zero(static_cast<Index>(readings_.size()));
  for (const Solved& s : solved_) add_values(s, answer(s, x), all);
  for (const TwoCathodes& t : cathodes_)
    all(static_cast<Index>(t.reading)) =
        mass_ratio(with(t.content, x), readings_[t.reading].cell);
  return all;
}

void FitModel::add_slopes(const Solved& solved, const VectorXd& x,
                          MatrixXd& slopes) const {
  const Schedule s = answer(solved, x);
  Case moved = with(solved.run.content, x);
  moved.growth = false;
  std::vector<FigureOf> asked;
  for (const ReadFigure& read : solved.run.figures)
    asked.push_back(in_phases(s, read.figure));
  const Sensitivities found = sensitivities(s, moved, asked);
  std::map<std::string, std::size_t> column;
  std::size_t next = 0;
  Case own = solved.run.content;
  for_each_quantity(own, [&](const std::string& key, Quantity& q) {
    if (as_stated(key, q)) column[key] = next;
    ++next;
  });
  for (std::size_t p = 0; p < parameters_.size(); ++p) {
    const std::string& key = parameters_[p].key;
    if (!column.contains(key)) continue;
    const auto at = static_cast<Index>(p);
    const double chain = parameters_[p].value_slope(x(at));
    for (std::size_t f = 0; f < asked.size(); ++f) {
      const ReadFigure& read = solved.run.figures[f];
      const std::optional<double> by = found.figures[f].by[column[key]];
      double& into = slopes(static_cast<Index>(read.reading), at);
      into += by && !read.current ? factor(solved, s, f) * *by * chain
                                  : std::numeric_limits<double>::quiet_NaN();
    }
  }
}

MatrixXd FitModel::slopes(const VectorXd& x) const {
  MatrixXd all = MatrixXd::Zero(static_cast<Index>(readings_.size()), x.size());
  for (const Solved& s : solved_) add_slopes(s, x, all);
  for (const TwoCathodes& t : cathodes_)
    all.row(static_cast<Index>(t.reading))
        .setConstant(std::numeric_limits<double>::quiet_NaN());
  for (Index p = 0; p < x.size(); ++p) {
    if (all.col(p).allFinite()) continue;
    VectorXd more = x, less = x;
    const double h = kStep * parameters_[static_cast<std::size_t>(p)].unit();
    more(p) += h;
    less(p) -= h;
    const VectorXd by = (values(more) - values(less)) / (2 * h);
    for (Index r = 0; r < by.size(); ++r)
      if (!std::isfinite(all(r, p))) all(r, p) = by(r);
  }
  return all;
}

}  // namespace thinspot::solver
