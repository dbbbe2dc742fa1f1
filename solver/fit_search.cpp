#include "solver/fit_search.hpp"

#include "mesh/errors.hpp"
#include "solver/correlation.hpp"

#include <unsupported/Eigen/NonLinearOptimization>

#include <fmt/format.h>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Relative; of the sum of squares and of x. Readings are not better than 1e-4,
/// and a kept mesh answers to 1e-8.
constexpr double kSettled = 1e-7;
constexpr int kMostEvaluations = 200;
/// Where no current flows: a sum of squares that no set of readings comes near.
constexpr double kNowhere = 1e8;

VectorXd stated_residuals(const FitModel& model, const VectorXd& x) {
  return model.stated() * (x - start_of(model.parameters()));
}

struct Problem {
  const FitModel& model;
  const ReadValues& read;
  int rows, columns;

  int inputs() const { return columns; }
  int values() const { return rows; }

  int operator()(const VectorXd& x, VectorXd& residuals) const {
    const VectorXd stated = stated_residuals(model, x);
    try {
      residuals.head(rows - stated.size()) =
          (model.values(x) - read.value).cwiseQuotient(read.spread);
    } catch (const CaseError&) {
      residuals.setConstant(kNowhere);
      return 0;
    }
    residuals.tail(stated.size()) = stated;
    return 0;
  }

  int df(const VectorXd& x, MatrixXd& slopes) const {
    const MatrixXd& stated = model.stated();
    slopes.topRows(rows - stated.rows()) =
        read.spread.cwiseInverse().asDiagonal() * model.slopes(x);
    slopes.bottomRows(stated.rows()) = stated;
    return 0;
  }
};

Problem problem_of(const FitModel& model, const ReadValues& read) {
  const auto stated = model.stated().rows();
  return {model, read, static_cast<int>(read.value.size() + stated),
          static_cast<int>(model.parameters().size())};
}

}  // namespace

ReadValues read_values(const std::vector<Reading>& readings) {
  const auto count = static_cast<Index>(readings.size());
  ReadValues read{VectorXd(count), VectorXd(count)};
  for (Index k = 0; k < count; ++k) {
    const Reading& r = readings[static_cast<std::size_t>(k)];
    read.value(k) = r.value;
    read.spread(k) = r.plus_minus / kOf95;
  }
  return read;
}

FitPoint fit_point(const FitModel& model, const ReadValues& read,
                   const VectorXd& x) {
  const Problem problem = problem_of(model, read);
  FitPoint point;
  point.x = x;
  point.values = model.values(x);
  const VectorXd stated = stated_residuals(model, x);
  point.residuals.resize(problem.rows);
  point.residuals << (point.values - read.value).cwiseQuotient(read.spread),
      stated;
  point.slopes.resize(problem.rows, problem.columns);
  problem.df(x, point.slopes);
  point.squares = point.residuals.squaredNorm();
  return point;
}

FitPoint least_squares(const FitModel& model, const ReadValues& read,
                       const VectorXd& start) {
  if (start.size() == 0) return fit_point(model, read, start);
  Problem problem = problem_of(model, read);
  Eigen::LevenbergMarquardt<Problem> search(problem);
  search.parameters.ftol = search.parameters.xtol = kSettled;
  search.parameters.maxfev = kMostEvaluations;
  // Each x is scaled by what is much of it already.
  search.useExternalScaling = true;
  search.diag.resize(start.size());
  for (Index k = 0; k < start.size(); ++k)
    search.diag(k) = 1 / model.parameters()[static_cast<std::size_t>(k)].unit();
  VectorXd x = start;
  const auto status = search.minimize(x);
  using namespace Eigen::LevenbergMarquardtSpace;
  if (status == ImproperInputParameters || status == UserAsked ||
      status == TooManyFunctionEvaluation || search.fvec(0) >= kNowhere)
    throw NoResultError(
        "the fit does not settle: no set of values comes near the readings; "
        "look for a reading in a wrong unit");
  FitPoint point = fit_point(model, read, x);
  point.evaluations = static_cast<int>(search.nfev);
  return point;
}

}  // namespace thinspot::solver
