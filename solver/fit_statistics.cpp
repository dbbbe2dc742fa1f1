#include "solver/fit_statistics.hpp"

#include "solver/correlation.hpp"
#include "solver/draws.hpp"

#include <Eigen/Cholesky>
#include <Eigen/SVD>
#include <unsupported/Eigen/SpecialFunctions>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// A parameter takes part in a direction of length 1 by at least this.
constexpr double kTakesPart = 0.3;
/// Units that a direction must be known to for a fit to find it.
constexpr double kFindable = 3;
/// Chance of a scatter below which it is not taken for chance.
constexpr double kScattered = 0.01;
/// Of a table of readings without a fault, that any is told to be out of line.
constexpr double kFalseAlarm = 0.05;
/// A reading that nothing else tells has no say against the others.
constexpr double kAlone = 1e-6;

VectorXd units_of(const std::vector<FitParameter>& parameters) {
  VectorXd units(static_cast<Index>(parameters.size()));
  for (Index k = 0; k < units.size(); ++k)
    units(k) = parameters[static_cast<std::size_t>(k)].unit();
  return units;
}

/// Right singular vectors of slopes in units, all of them, and singular values,
/// 0 for those without a row.
struct Directions {
  MatrixXd vectors;
  VectorXd values;
};
Directions directions_of(const MatrixXd& slopes, const VectorXd& units) {
  const MatrixXd scaled = slopes * units.asDiagonal();
  const Eigen::JacobiSVD<MatrixXd> svd(scaled, Eigen::ComputeFullV);
  Directions d{svd.matrixV(), VectorXd::Zero(units.size())};
  d.values.head(svd.singularValues().size()) = svd.singularValues();
  return d;
}

/// How readily a parameter is given up.
int given_up(const std::string& key) {
  if (may_be_negative(key)) return 4;
  if (key == "solution.efficiency") return 3;
  if (key == "solution.conductivity") return 0;
  return key.starts_with("cathode.") ? 1 : 2;
}

MatrixXd covariance_of(const MatrixXd& slopes) {
  const Index count = slopes.cols();
  if (count == 0) return {0, 0};
  const MatrixXd one = MatrixXd::Identity(count, count);
  return (slopes.transpose() * slopes).ldlt().solve(one);
}

/// Readings against all others that are not out of line: the one that is most
/// is set aside and the rest judged anew, to first order, until none is. Else
/// one wrong reading would make all look wrong.
class Lineup {
 public:
  Lineup(const FitPoint& point, std::size_t readings, double outlying)
      : slopes_(point.slopes),
        residuals_(point.residuals),
        readings_(static_cast<Index>(readings)) {
    const Index most = (slopes_.rows() - slopes_.cols() + 1) / 2;
    for (judge();
         aside_.size() < static_cast<std::size_t>(std::max<Index>(0, most));
         judge()) {
      Index worst = -1;
      for (Index k = 0; k < readings_; ++k)
        if (!is_aside(k) && std::abs(against_(k)) > outlying &&
            (worst < 0 || std::abs(against_(k)) > std::abs(against_(worst))))
          worst = k;
      if (worst < 0) break;
      aside_.push_back(worst);
    }
  }

  bool is_aside(Index k) const {
    return std::find(aside_.begin(), aside_.end(), k) != aside_.end();
  }
  double against(Index k) const { return against_(k); }
  double off(Index k) const { return off_(k); }

 private:
  void judge() {
    MatrixXd slopes = slopes_;
    for (const Index k : aside_) slopes.row(k).setZero();
    const MatrixXd covariance = covariance_of(slopes);
    // Where the others alone would have the values.
    const VectorXd moved = -covariance * (slopes.transpose() * residuals_);
    against_ = off_ = VectorXd::Zero(readings_);
    for (Index k = 0; k < readings_; ++k) {
      const double own =
          slopes_.row(k) * covariance * slopes_.row(k).transpose();
      const double there = residuals_(k) + slopes_.row(k).dot(moved);
      const double left = is_aside(k) ? 1 + own : 1 - own;
      if (left < kAlone) continue;
      against_(k) = there / std::sqrt(left);
      off_(k) = is_aside(k) ? there : there / left;
    }
  }

  const MatrixXd& slopes_;
  const VectorXd& residuals_;
  Index readings_;
  std::vector<Index> aside_;
  VectorXd against_, off_;
};

}  // namespace

std::vector<Untold> untold(const std::vector<FitParameter>& parameters,
                           const MatrixXd& slopes) {
  std::vector<Untold> found;
  if (parameters.empty()) return found;
  const Directions d = directions_of(slopes, units_of(parameters));
  for (Index k = 0; k < d.values.size(); ++k) {
    if (d.values(k) >= 1) continue;
    Untold u;
    std::vector<std::size_t> order(parameters.size());
    std::iota(order.begin(), order.end(), 0);
    const auto part = [&](std::size_t p) {
      return d.vectors(static_cast<Index>(p), k);
    };
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) {
                       return std::abs(part(a)) > std::abs(part(b));
                     });
    bool wanted = false;
    for (std::size_t p : order) {
      if (std::abs(part(p)) < kTakesPart) break;
      u.keys.push_back(parameters[p].key);
      u.parts.push_back(part(p));
      wanted = wanted || parameters[p].wanted;
    }
    u.spread = d.values(k) > 0 ? 1 / d.values(k)
                               : std::numeric_limits<double>::infinity();
    if (wanted) found.push_back(std::move(u));
  }
  return found;
}

std::vector<bool> findable(const std::vector<FitParameter>& parameters,
                           MatrixXd slopes) {
  std::vector<bool> found(parameters.size(), true);
  const VectorXd units = units_of(parameters);
  for (std::size_t left = parameters.size(); left > 0; --left) {
    // What is given up has no slopes any more; its directions are its own.
    const Directions d = directions_of(slopes, units);
    std::ptrdiff_t worst = -1;
    for (Index k = d.values.size(); k-- > 0 && worst < 0;) {
      if (d.values(k) * kFindable >= 1) break;
      for (std::size_t p = 0; p < parameters.size(); ++p) {
        const bool open = found[p] && parameters[p].spread <= 0;
        if (!open || std::abs(d.vectors(static_cast<Index>(p), k)) < kTakesPart)
          continue;
        if (worst < 0 ||
            given_up(parameters[p].key) >
                given_up(parameters[static_cast<std::size_t>(worst)].key))
          worst = static_cast<std::ptrdiff_t>(p);
      }
    }
    if (worst < 0) break;
    found[static_cast<std::size_t>(worst)] = false;
    slopes.col(worst).setZero();
  }
  return found;
}

FitStatistics fit_statistics(const FitPoint& point, std::size_t readings) {
  const MatrixXd& j = point.slopes;
  const Index count = j.cols();
  FitStatistics s;
  s.freedom = static_cast<int>(j.rows() - count);
  s.covariance = covariance_of(j);
  if (s.freedom > 0)
    s.chance = Eigen::numext::igammac(0.5 * s.freedom, 0.5 * point.squares);
  if (s.chance < kScattered) s.widened = std::sqrt(point.squares / s.freedom);
  const double outlying =
      -normal_quantile(0.5 * kFalseAlarm /
                       static_cast<double>(std::max<std::size_t>(1, readings)));
  const Lineup lineup(point, readings, outlying);
  s.without = MatrixXd::Zero(count, static_cast<Index>(readings));
  for (Index k = 0; k < static_cast<Index>(readings); ++k) {
    s.against_others.push_back(lineup.against(k));
    s.off_others.push_back(lineup.off(k));
    s.outlying.push_back(lineup.is_aside(k));
    const VectorXd moved = s.covariance * j.row(k).transpose();
    const double left = 1 - j.row(k).dot(moved);
    if (left >= kAlone) s.without.col(k) = point.residuals(k) / left * moved;
  }
  // The readings are less sure than they said; what the case states is not.
  MatrixXd wide = j;
  wide.topRows(static_cast<Index>(readings)) /= s.widened;
  s.covariance = covariance_of(wide);
  return s;
}

}  // namespace thinspot::solver
