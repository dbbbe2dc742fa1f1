#include "solver/correlation.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Below, correlations contradict each other but for rounding.
constexpr double kLeastEigenvalue = 1e-9;

Index place_in(const InputGroup& group, const std::string& key) {
  const auto found = std::find(group.keys.begin(), group.keys.end(), key);
  return found == group.keys.end() ? -1 : found - group.keys.begin();
}

/// Takes what the second group holds into the first.
void join(std::vector<InputGroup>& groups, std::size_t a, std::size_t b) {
  InputGroup &to = groups[a], &from = groups[b];
  to.keys.insert(to.keys.end(), from.keys.begin(), from.keys.end());
  to.stated.insert(to.stated.end(), from.stated.begin(), from.stated.end());
  groups.erase(groups.begin() + static_cast<std::ptrdiff_t>(b));
}

}  // namespace

double half_width(const Quantity& q) {
  return q.evenly ? kEvenly * q.plus_minus : q.plus_minus;
}

std::vector<InputGroup> input_groups(Case c) {
  std::vector<InputGroup> groups;
  for_each_quantity(c, [&](const std::string& key, const Quantity& q) {
    if (q.plus_minus > 0) groups.push_back({{key}, {q}, {}});
  });
  const auto holder = [&](const std::string& key) {
    std::size_t k = 0;
    while (k < groups.size() && place_in(groups[k], key) < 0) ++k;
    return k;
  };
  const auto known = [&](const Correlated& pair) {
    return holder(pair.of[0]) < groups.size() &&
           holder(pair.of[1]) < groups.size();
  };
  for (const Correlated& pair : c.correlated) {
    if (!known(pair)) continue;
    const std::size_t a = holder(pair.of[0]), b = holder(pair.of[1]);
    if (a != b) join(groups, std::min(a, b), std::max(a, b));
  }
  for (InputGroup& group : groups) {
    const auto n = static_cast<Index>(group.keys.size());
    group.correlation = MatrixXd::Identity(n, n);
  }
  for (const Correlated& pair : c.correlated) {
    if (!known(pair)) continue;
    InputGroup& group = groups[holder(pair.of[0])];
    const Index a = place_in(group, pair.of[0]),
                b = place_in(group, pair.of[1]);
    if (a != b) group.correlation(a, b) = group.correlation(b, a) = pair.by;
  }
  return groups;
}

bool is_possible(const InputGroup& group) {
  const auto n = group.correlation.rows();
  const Eigen::LLT<MatrixXd> factor(
      group.correlation - kLeastEigenvalue * MatrixXd::Identity(n, n));
  return factor.info() == Eigen::Success;
}

std::vector<Direction> directions_of(const InputGroup& group) {
  const auto n = static_cast<Index>(group.keys.size());
  VectorXd widths(n);
  bool evenly = false;
  for (Index k = 0; k < n; ++k) {
    const Quantity& q = group.stated[static_cast<std::size_t>(k)];
    widths(k) = half_width(q);
    evenly = evenly || q.evenly;
  }
  const Eigen::SelfAdjointEigenSolver<MatrixXd> axes(group.correlation);
  std::vector<Direction> directions;
  for (Index k = 0; k < n; ++k) {
    const double length = std::sqrt(std::max(axes.eigenvalues()(k), 0.0));
    directions.push_back(
        {length * widths.cwiseProduct(axes.eigenvectors().col(k)),
         evenly ? 1 / kEvenly : 1});
  }
  return directions;
}

bool may_be_negative(const std::string& key) {
  return key.ends_with("offset") || key.ends_with("open_circuit_voltage");
}

double within_reason(const std::string& key, double value, double moved) {
  if (key == "solution.efficiency") return std::clamp(moved, 0.0, 1.0);
  if (may_be_negative(key)) return moved;
  // A resistance may be next to nothing, but not nothing: that is another law.
  // What else must stay positive stays above a twentieth of its value.
  return std::max(moved, (key.ends_with("resistance") ? 1e-3 : 0.05) * value);
}

void set_quantities(Case& c, const InputGroup& group, const VectorXd& values) {
  for_each_quantity(c, [&](const std::string& key, Quantity& q) {
    const Index k = place_in(group, key);
    if (k < 0) return;
    q.value = within_reason(
        key, group.stated[static_cast<std::size_t>(k)].value, values(k));
  });
}

VectorXd values_of(const InputGroup& group) {
  VectorXd values(static_cast<Index>(group.stated.size()));
  for (std::size_t k = 0; k < group.stated.size(); ++k)
    values(static_cast<Index>(k)) = group.stated[k].value;
  return values;
}

}  // namespace thinspot::solver
