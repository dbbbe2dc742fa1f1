#include "mesh/errors.hpp"
#include "mesh/outline_spline.hpp"

#include <Eigen/SparseCore>
#include <Eigen/SparseLU>

#include <algorithm>
#include <memory>
#include <utility>

namespace thinspot::mesh {

namespace {

/// Cubics between points, each by its ends and the velocities there.
struct Cubics {
  std::vector<double> t;
  std::vector<Point> at, velocity;
};

/// The cubic's coefficients in s = (t - t_k)/h: a + b s + c s^2 + d s^3.
struct Cubic {
  Point a, b, c, d;
  double s, h;
};

Cubic cubic_at(const Cubics& all, double t) {
  const auto above = std::upper_bound(all.t.begin() + 1, all.t.end() - 1, t);
  const auto k = static_cast<std::size_t>(above - all.t.begin()) - 1;
  const double h = all.t[k + 1] - all.t[k];
  const Point chord = all.at[k + 1] - all.at[k];
  const Point u = h * all.velocity[k], v = h * all.velocity[k + 1];
  return {all.at[k],          u, 3 * chord - 2 * u - v, u + v - 2 * chord,
          (t - all.t[k]) / h, h};
}

/// Velocities that make the curvature continuous: at each inner point
///   v_(k-1)/h_(k-1) + 2 v_k (1/h_(k-1) + 1/h_k) + v_(k+1)/h_k
///     = 3 (chord_(k-1)/h_(k-1)^2 + chord_k/h_k^2).
std::vector<Point> smooth_velocities(const Cubics& c, bool closed,
                                     const std::optional<Point>& start,
                                     const std::optional<Point>& end) {
  const int n = static_cast<int>(c.t.size());
  std::vector<Eigen::Triplet<double>> entries;
  Eigen::MatrixX2d right = Eigen::MatrixX2d::Zero(n, 2);
  // What the cubic after point k adds to the equation of its end `row`.
  const auto add_cubic = [&](int row, int k, bool at_its_start) {
    const auto i = static_cast<std::size_t>(k);
    const double h = c.t[i + 1] - c.t[i];
    const Point chord = c.at[i + 1] - c.at[i];
    entries.emplace_back(row, k, (at_its_start ? 2 : 1) / h);
    entries.emplace_back(row, k + 1, (at_its_start ? 1 : 2) / h);
    right.row(row) += 3 * chord.transpose() / (h * h);
  };
  for (int k = 1; k + 1 < n; ++k) {
    add_cubic(k, k - 1, false);
    add_cubic(k, k, true);
  }
  const auto give = [&](int row, const Point& direction) {
    entries.emplace_back(row, row, 1);
    right.row(row) = direction.normalized().transpose();
  };
  if (closed) {
    add_cubic(0, n - 2, false);
    add_cubic(0, 0, true);
    entries.emplace_back(n - 1, 0, 1);
    entries.emplace_back(n - 1, n - 1, -1);
  } else {
    start ? give(0, *start) : add_cubic(0, 0, true);
    end ? give(n - 1, *end) : add_cubic(n - 1, n - 2, false);
  }
  Eigen::SparseMatrix<double> matrix(n, n);
  matrix.setFromTriplets(entries.begin(), entries.end());
  const Eigen::SparseLU<Eigen::SparseMatrix<double>> factor(matrix);
  if (factor.info() != Eigen::Success)
    throw InputError("file", "holds a spline through points out of all measure",
                     "sound splines, or straight lines and arcs");
  const Eigen::MatrixX2d velocity = factor.solve(right);
  std::vector<Point> result;
  for (int k = 0; k < n; ++k) result.emplace_back(velocity.row(k));
  return result;
}

}  // namespace

ParametricCurve curve_through(std::vector<Point> points, bool closed,
                              const std::optional<Point>& start,
                              const std::optional<Point>& end) {
  if (closed && !points.empty()) points.push_back(points.front());
  points.erase(std::unique(points.begin(), points.end()), points.end());
  if (points.size() < 2)
    throw InputError("file", "holds a spline through fewer than two points",
                     "sound splines, or straight lines and arcs");
  const auto cubics = std::make_shared<Cubics>();
  cubics->at = std::move(points);
  cubics->t = {0};
  for (std::size_t k = 1; k < cubics->at.size(); ++k)
    cubics->t.push_back(cubics->t.back() +
                        (cubics->at[k] - cubics->at[k - 1]).norm());
  cubics->velocity = smooth_velocities(*cubics, closed, start, end);
  ParametricCurve curve;
  curve.knots = cubics->t;
  curve.at = [cubics](double t) -> Point {
    const Cubic c = cubic_at(*cubics, t);
    return c.a + c.s * (c.b + c.s * (c.c + c.s * c.d));
  };
  curve.velocity = [cubics](double t) -> Point {
    const Cubic c = cubic_at(*cubics, t);
    return (c.b + c.s * (2 * c.c + 3 * c.s * c.d)) / c.h;
  };
  return curve;
}

}  // namespace thinspot::mesh
