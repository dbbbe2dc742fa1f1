#include "solver/draws.hpp"

#include "solver/correlation.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <utility>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;

/// The standard says what the engine gives, but not what its distributions
/// make of it: between 0 and 1, both left out, by the engine's upper 53 bits.
double fraction(std::mt19937_64& engine) {
  return (static_cast<double>(engine() >> 11) + 0.5) * 0x1p-53;
}

/// A whole number from 0 to below `count`.
std::size_t lot(std::mt19937_64& engine, std::size_t count) {
  return std::min(
      count - 1,
      static_cast<std::size_t>(fraction(engine) * static_cast<double>(count)));
}

}  // namespace

double normal_share(double value) {
  return 0.5 * std::erfc(-value / std::numbers::sqrt2);
}

double normal_quantile(double share) {
  if (share > 0.5) return -normal_quantile(1 - share);
  // By Newton's method: below 0 the share bends upwards, so that from 0 every
  // step stays on one side of the answer and comes nearer.
  double x = 0;
  for (int k = 0; k < 100; ++k) {
    const double density =
        std::exp(-0.5 * x * x) / std::sqrt(2 * std::numbers::pi);
    const double step = (normal_share(x) - share) / density;
    x -= step;
    if (!(std::abs(step) > 1e-13 * (1 + std::abs(x)))) break;
  }
  return x;
}

MatrixXd latin_hypercube(Index draws, Index inputs, std::uint64_t seed) {
  std::mt19937_64 engine(seed);
  MatrixXd shares(draws, inputs);
  const auto n = static_cast<std::size_t>(draws);
  for (Index j = 0; j < inputs; ++j) {
    for (Index k = 0; k < draws; ++k)
      shares(k, j) = (static_cast<double>(k) + fraction(engine)) /
                     static_cast<double>(draws);
    for (std::size_t k = n; k > 1; --k)
      std::swap(shares(static_cast<Index>(k - 1), j),
                shares(static_cast<Index>(lot(engine, k)), j));
  }
  return shares;
}

MatrixXd drawn_normals(Index draws, Index inputs, std::uint64_t seed) {
  return latin_hypercube(draws, inputs, seed).unaryExpr(&normal_quantile);
}

double quantile(std::vector<double> values, double share) {
  std::sort(values.begin(), values.end());
  // The kth of n stands for the share (k + 1/2) / n.
  const auto n = static_cast<double>(values.size());
  const double place = std::clamp(share * n - 0.5, 0.0, n - 1);
  const auto below = static_cast<std::size_t>(place);
  const std::size_t above = std::min(below + 1, values.size() - 1);
  return values[below] +
         (place - std::floor(place)) * (values[above] - values[below]);
}

double chance_above(double wanted, double value, double down, double up) {
  const double short_of = wanted - value;
  const double width = (short_of > 0 ? up : down) / kOf95;
  if (width <= 0) return short_of > 0 ? 0 : 1;
  return normal_share(-short_of / width);
}

}  // namespace thinspot::solver
