#include "solver/fit.hpp"

#include "mesh/errors.hpp"
#include "solver/correlation.hpp"
#include "solver/simulate.hpp"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>
#include <utility>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Of a reading's standard deviation, what another mesh may make of it.
constexpr double kSameMesh = 0.05;
constexpr int kMostMeshings = 5;
/// Where readings scatter like this the search may be in a wrong valley, and
/// begins elsewhere too; by this factor of the wanted values.
constexpr double kSuspect = 1e-3;
constexpr double kElsewhere = 4;
/// Readings tell of a quantity where they leave less than this share of its
/// doubt, or move it by more than that share of its standard deviation.
constexpr double kTold = 0.9, kMoved = 0.3;
/// Correlations below this are left out, where the rest still makes sense.
constexpr double kMatters = 0.1;
/// Shares of the time: search, forecast before, forecast now.
constexpr double kSearch = 0.5, kForecast = 0.75;

/// Nuisances that no reading bears on are as sure as they were.
std::vector<bool> that_matter(const FitModel& model, const MatrixXd& slopes) {
  constexpr double little = 1e-3;
  const auto& parameters = model.parameters();
  std::vector<bool> kept = findable(parameters, slopes);
  const Index stated = model.stated().rows();
  for (std::size_t k = 0; k < kept.size(); ++k) {
    const auto column =
        slopes.col(static_cast<Index>(k)).head(slopes.rows() - stated);
    const double most = column.cwiseAbs().maxCoeff() * parameters[k].unit();
    if (!parameters[k].wanted && most < little) kept[k] = false;
  }
  return kept;
}

/// From other values of what is wanted, where the search seems lost.
FitPoint from_elsewhere(FitModel& model, const ReadValues& read, FitPoint best,
                        const VectorXd& start) {
  for (const double factor : {kElsewhere, 1 / kElsewhere}) {
    VectorXd x = start;
    for (Index k = 0; k < x.size(); ++k) {
      const FitParameter& p = model.parameters()[static_cast<std::size_t>(k)];
      if (p.wanted && p.logarithm && p.key.starts_with("cathode."))
        x(k) += std::log(factor);
    }
    try {
      const FitPoint other = least_squares(model, read, x);
      if (other.squares < best.squares) best = other;
    } catch (const CaseError&) {
      // Nothing lies there.
    }
  }
  return best;
}

FittedValue value_of(const FitParameter& p, double x, double spread) {
  FittedValue v;
  v.key = p.key;
  v.stated = p.stated;
  v.wanted = p.wanted;
  v.value = p.value_of(x);
  v.plus_minus = kOf95 * spread * p.value_slope(x);
  v.interval = {p.value_of(x - kOf95 * spread), p.value_of(x + kOf95 * spread)};
  return v;
}

FittedValue given_up(const FitParameter& p) {
  FittedValue v;
  v.key = p.key;
  v.stated = p.stated;
  v.wanted = v.given_up = true;
  v.value = p.stated.value;
  v.interval = {v.value, v.value};
  return v;
}

bool is_told(const FitParameter& p, double x, double spread) {
  if (!(p.spread > 0)) return true;
  return spread < kTold * p.spread ||
         std::abs(x - p.x_of(p.start)) > kMoved * p.spread;
}

bool makes_sense(const MatrixXd& correlation) {
  return correlation.llt().info() == Eigen::Success;
}

std::vector<Correlated> pairs_of(const std::vector<std::string>& keys,
                                 const MatrixXd& covariance) {
  const VectorXd spread = covariance.diagonal().cwiseSqrt();
  const MatrixXd all = spread.cwiseInverse().asDiagonal() * covariance *
                       spread.cwiseInverse().asDiagonal();
  MatrixXd strong = all;
  for (Index a = 0; a < all.rows(); ++a)
    for (Index b = 0; b < all.cols(); ++b)
      if (a != b && std::abs(all(a, b)) < kMatters) strong(a, b) = 0;
  const MatrixXd& used = makes_sense(strong) ? strong : all;
  std::vector<Correlated> pairs;
  for (Index a = 0; a < used.rows(); ++a)
    for (Index b = a + 1; b < used.cols(); ++b)
      if (used(a, b) != 0)
        pairs.push_back({{keys[static_cast<std::size_t>(a)],
                          keys[static_cast<std::size_t>(b)]},
                         used(a, b)});
  return pairs;
}

/// Of each parameter: told, or correlated with one that is.
std::vector<bool> shown(const std::vector<bool>& told,
                        const MatrixXd& covariance) {
  std::vector<bool> all = told;
  for (std::size_t a = 0; a < told.size(); ++a)
    for (std::size_t b = 0; b < told.size(); ++b) {
      const auto row = static_cast<Index>(a), column = static_cast<Index>(b);
      if (told[b] && std::abs(covariance(row, column)) >=
                         kMatters * std::sqrt(covariance(row, row) *
                                              covariance(column, column)))
        all[a] = true;
    }
  return all;
}

void put_values(Fit& f, const std::vector<FitParameter>& whole,
                const std::vector<FitParameter>& kept, const FitPoint& point,
                const MatrixXd& covariance) {
  std::vector<bool> is_new;
  for (std::size_t k = 0; k < kept.size(); ++k) {
    const auto at = static_cast<Index>(k);
    is_new.push_back(
        is_told(kept[k], point.x(at), std::sqrt(covariance(at, at))));
  }
  const std::vector<bool> in_list = shown(is_new, covariance);
  std::vector<Index> told;
  std::vector<std::string> keys;
  for (std::size_t k = 0; k < kept.size(); ++k) {
    if (!in_list[k]) continue;
    const auto at = static_cast<Index>(k);
    f.values.push_back(
        value_of(kept[k], point.x(at), std::sqrt(covariance(at, at))));
    f.values.back().told = is_new[k];
    told.push_back(at);
    keys.push_back(kept[k].key);
  }
  f.pairs = pairs_of(keys, covariance(told, told));
  for (const FitParameter& p : whole)
    if (p.wanted && std::none_of(kept.begin(), kept.end(),
                                 [&](const auto& k) { return k.key == p.key; }))
      f.values.push_back(given_up(p));
  std::stable_sort(
      f.values.begin(), f.values.end(),
      [](const auto& a, const auto& b) { return a.wanted > b.wanted; });
  // What the case tells of others stays.
  for (const Correlated& pair : f.stated.correlated)
    if (std::none_of(f.values.begin(), f.values.end(), [&](const auto& v) {
          return v.key == pair.of[0] || v.key == pair.of[1];
        }))
      f.pairs.push_back(pair);
  f.fitted = f.stated;
  f.fitted.correlated = f.pairs;
  for_each_quantity(f.fitted, [&](const std::string& key, Quantity& q) {
    for (FittedValue& v : f.values) {
      if (v.key != key || v.given_up) continue;
      if (key == "solution.efficiency") v.value = std::min(v.value, 1.0);
      q = {v.value, v.plus_minus};
    }
  });
}

void put_readings(Fit& f, const FitModel& model, const VectorXd& before,
                  const FitPoint& point, const FitStatistics& s) {
  const auto& parameters = model.parameters();
  for (std::size_t k = 0; k < model.readings().size(); ++k) {
    const auto at = static_cast<Index>(k);
    FittedReading r;
    r.reading = model.readings()[k];
    r.before = before(at);
    r.now = point.values(at);
    r.residual = point.residuals(at);
    r.against_others = s.against_others[k];
    r.others = r.reading.value + s.off_others[k] * r.reading.plus_minus / kOf95;
    r.outlier = s.outlying[k];
    double most = 0.5;
    for (std::size_t p = 0; p < parameters.size(); ++p) {
      const auto row = static_cast<Index>(p);
      const double moved =
          std::abs(s.without(row, at)) / std::sqrt(s.covariance(row, row));
      if (!parameters[p].wanted || moved < most) continue;
      most = moved;
      r.moves = parameters[p].key;
      r.moved_to = parameters[p].value_of(point.x(row) + s.without(row, at));
    }
    f.readings.push_back(std::move(r));
  }
  std::stable_sort(f.readings.begin(), f.readings.end(),
                   [](const auto& a, const auto& b) {
                     return a.reading.line < b.reading.line;
                   });
}

std::shared_ptr<const Result> forecast(const Case& c,
                                       const Progress& progress) {
  return std::make_shared<const Result>(simulate(c, progress));
}

/// Those of the whole that were kept.
VectorXd in_whole(const std::vector<FitParameter>& whole,
                  const std::vector<FitParameter>& kept, const VectorXd& x) {
  VectorXd all = start_of(whole);
  for (std::size_t k = 0; k < kept.size(); ++k)
    for (std::size_t w = 0; w < whole.size(); ++w)
      if (whole[w].key == kept[k].key)
        all(static_cast<Index>(w)) = x(static_cast<Index>(k));
  return all;
}

}  // namespace

FitPoint settled(FitModel& model, const ReadValues& read, VectorXd x,
                 int& meshings, const Progress& progress) {
  Unfolding pieces(progress);
  const VectorXd start = x;
  int evaluations = 0;
  for (int k = 1;; ++k) {
    FitPoint point = least_squares(model, read, x);
    evaluations = point.evaluations += evaluations;
    const int freedom = static_cast<int>(point.residuals.size() - x.size());
    const bool lost =
        k == 1 && freedom > 0 &&
        fit_statistics(point, model.readings().size()).chance < kSuspect;
    if (lost) point = from_elsewhere(model, read, point, start);
    if (k >= kMostMeshings) return point;
    model.mesh(point.x, pieces.next(1, 1));
    ++meshings;
    const VectorXd moved =
        (model.values(point.x) - point.values).cwiseQuotient(read.spread);
    x = point.x;
    if (moved.cwiseAbs().maxCoeff() >= kSameMesh) continue;
    point = least_squares(model, read, x);
    point.evaluations += evaluations;
    return point;
  }
}

Fit fit(const Case& c, const std::vector<Experiment>& experiments,
        const FitOptions& options, const Progress& progress) {
  Fit f;
  f.stated = c;

  // 1. What may move, and the cases in which something was read.
  FitModel model(c, experiments, fit_parameters(c, options));
  const ReadValues read = read_values(model.readings());

  // 2. Meshed, and what the readings would be by the case as it is.
  const VectorXd start = start_of(model.parameters());
  model.mesh(start, progress.part(0, 0.5 * kSearch));
  f.meshings = 1;
  const FitModel whole = model;
  const FitPoint before = fit_point(model, read, start);

  // 3. What they cannot tell is left alone.
  std::vector<bool> kept = that_matter(model, before.slopes);
  VectorXd x = start;
  FitPoint point;
  for (;;) {
    const std::vector<FitParameter> old = model.parameters();
    model.keep(kept);
    x = in_whole(model.parameters(), old, x);

    // 4. Least squares, meshed again where the values went.
    point = settled(model, read, x, f.meshings,
                    progress.part(0.5 * kSearch, kSearch));
    f.evaluations += point.evaluations;
    x = point.x;
    kept = findable(model.parameters(), point.slopes);
    if (std::find(kept.begin(), kept.end(), false) == kept.end()) break;
  }

  // 5. How sure that is, and which readings do not go with the others.
  const FitStatistics s = fit_statistics(point, model.readings().size());
  f.squares = point.squares;
  f.freedom = s.freedom;
  f.chance = s.chance;
  f.widened = s.widened;
  const VectorXd there = in_whole(whole.parameters(), model.parameters(), x);
  f.untold =
      untold(whole.parameters(),
             read.spread.cwiseInverse().asDiagonal() * whole.slopes(there));
  put_values(f, whole.parameters(), model.parameters(), point, s.covariance);
  put_readings(f, model, before.values, point, s);

  // 6. What it means for the part.
  f.forecast_before = forecast(f.stated, progress.part(kSearch, kForecast));
  f.forecast_now = forecast(f.fitted, progress.part(kForecast, 1));
  return f;
}

}  // namespace thinspot::solver
