#include "solver/fit_parameters.hpp"

#include "mesh/errors.hpp"
#include "solver/correlation.hpp"

#include <Eigen/Cholesky>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Where a case lets the part hold its potential: a slope to begin with, about
/// that of an acid copper bath at 5 A/dm2 [ohm m2].
constexpr double kFirstSlope = 1e-4;
/// A change of a voltage that is much [V].
constexpr double kMuchVoltage = 0.1;

bool every_fit_looks_for(const std::string& key) {
  return key == "solution.conductivity" ||
         (key.starts_with("cathode.") && key != "cathode.reverse_tafel_slope");
}

FitParameter parameter(const std::string& key, const Quantity& q, bool wanted,
                       bool readings_alone) {
  FitParameter p;
  p.key = key;
  p.stated = q;
  p.start = q.value;
  p.wanted = wanted;
  const bool slope = key.ends_with("polarization_resistance");
  if (slope && wanted && q.value == 0) p.start = kFirstSlope;
  p.logarithm = p.start > 0 && !may_be_negative(key);
  if (readings_alone) return p;
  p.spread = half_width(q) / kOf95;
  if (p.logarithm) p.spread /= p.start;
  return p;
}

}  // namespace

double FitParameter::x_of(double value) const {
  return logarithm ? std::log(value) : value;
}

double FitParameter::value_of(double x) const {
  return logarithm ? std::exp(x) : x;
}

double FitParameter::value_slope(double x) const {
  return logarithm ? std::exp(x) : 1;
}

double FitParameter::unit() const {
  if (spread > 0) return spread;
  return logarithm ? 1 : kMuchVoltage;
}

std::vector<FitParameter> fit_parameters(const Case& c,
                                         const FitOptions& options) {
  std::vector<FitParameter> all;
  std::vector<std::string> keys;
  Case copy = c;
  for_each_quantity(copy, [&](const std::string& key, Quantity& q) {
    keys.push_back(key);
    const bool asked = std::find(options.keys.begin(), options.keys.end(),
                                 key) != options.keys.end();
    const bool wanted = asked || every_fit_looks_for(key);
    const bool open = q.plus_minus > 0 && !options.readings_alone;
    if (wanted || open)
      all.push_back(parameter(key, q, wanted, options.readings_alone));
  });
  for (const std::string& key : options.keys)
    if (std::find(keys.begin(), keys.end(), key) == keys.end())
      throw InputError(key, "is no quantity of this case that can be fitted",
                       fmt::format("one of {}", fmt::join(keys, ", ")));
  return all;
}

VectorXd start_of(const std::vector<FitParameter>& parameters) {
  VectorXd x(static_cast<Index>(parameters.size()));
  for (Index k = 0; k < x.size(); ++k) {
    const FitParameter& p = parameters[static_cast<std::size_t>(k)];
    x(k) = p.x_of(p.start);
  }
  return x;
}

MatrixXd stated_slopes(const std::vector<FitParameter>& parameters,
                       const std::vector<Correlated>& correlated) {
  std::vector<Index> held;
  for (std::size_t k = 0; k < parameters.size(); ++k)
    if (parameters[k].spread > 0) held.push_back(static_cast<Index>(k));
  const auto count = static_cast<Index>(held.size());
  const auto of = [&](Index row) -> const FitParameter& {
    return parameters[static_cast<std::size_t>(
        held[static_cast<std::size_t>(row)])];
  };
  MatrixXd covariance = MatrixXd::Zero(count, count);
  for (Index a = 0; a < count; ++a) {
    covariance(a, a) = of(a).spread * of(a).spread;
    for (Index b = 0; b < count; ++b)
      for (const Correlated& pair : correlated)
        if (pair.of[0] == of(a).key && pair.of[1] == of(b).key)
          covariance(a, b) = covariance(b, a) =
              pair.by * of(a).spread * of(b).spread;
  }
  MatrixXd slopes =
      MatrixXd::Zero(count, static_cast<Index>(parameters.size()));
  if (count == 0) return slopes;
  const MatrixXd one = MatrixXd::Identity(count, count);
  const MatrixXd whitening = covariance.llt().matrixL().solve(one);
  for (Index k = 0; k < count; ++k)
    slopes.col(held[static_cast<std::size_t>(k)]) = whitening.col(k);
  return slopes;
}

}  // namespace thinspot::solver
