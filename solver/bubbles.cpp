#include "solver/bubbles.hpp"

#include "solver/element.hpp"

namespace thinspot::solver {

namespace {

using Barycentric = std::array<double, 3>;

/// Gradients of the barycentric coordinates z, x, y by (x, y).
constexpr std::array<std::array<double, 2>, 3> slopes{
    {{-1, -1}, {1, 0}, {0, 1}}};

/// Derivative of a function of the barycentric coordinates by (x, y).
Eigen::RowVector2d chain(double by_z, double by_x, double by_y) {
  const std::array<double, 3> by{by_z, by_x, by_y};
  Eigen::RowVector2d g = Eigen::RowVector2d::Zero();
  for (std::size_t k = 0; k < 3; ++k)
    for (int d : {0, 1}) g(d) += by[k] * slopes[k][static_cast<std::size_t>(d)];
  return g;
}

std::array<BubblePoint, 16> make_degree_6_rule() {
  std::array<BubblePoint, 16> rule;
  std::size_t k = 0;
  for (const EdgePoint& p : gauss_rule())
    for (const EdgePoint& q : gauss_rule()) {
      const double x = p.t, y = q.t * (1 - p.t);
      rule[k++] = {x,
                   y,
                   p.weight * q.weight * (1 - p.t),
                   shape_functions(x, y),
                   shape_gradients(x, y),
                   bubble_gradients(x, y)};
    }
  return rule;
}

}  // namespace

Eigen::Vector2d edge_bubbles(double t) {
  const double s = 1 - t, product = s * t, across = s - t;
  return {product * across, product * (5 * across * across - 1)};
}

BubbleValues bubble_values(double x, double y) {
  const Barycentric l{1 - x - y, x, y};
  BubbleValues b;
  for (int e = 0; e < 3; ++e) {
    const double a = l[static_cast<std::size_t>(e)];
    const double c = l[static_cast<std::size_t>((e + 1) % 3)];
    const double across = a - c;
    b(2 * e) = a * c * across;
    b(2 * e + 1) = a * c * (5 * across * across - 1);
  }
  const double all = l[0] * l[1] * l[2];
  b(6) = all;
  b(7) = all * (l[0] - l[1]);
  b(8) = all * (l[1] - l[2]);
  return b;
}

BubbleGradients bubble_gradients(double x, double y) {
  const Barycentric l{1 - x - y, x, y};
  BubbleGradients g;
  for (std::size_t e = 0; e < 3; ++e) {
    const std::size_t f = (e + 1) % 3;
    const double a = l[e], c = l[f], across = a - c;
    const double even = 5 * across * across - 1;
    std::array<double, 3> odd_by{}, even_by{};
    odd_by[e] = c * across + a * c;
    odd_by[f] = a * across - a * c;
    even_by[e] = c * even + a * c * 10 * across;
    even_by[f] = a * even - a * c * 10 * across;
    const auto row = static_cast<Eigen::Index>(2 * e);
    g.row(row) = chain(odd_by[0], odd_by[1], odd_by[2]);
    g.row(row + 1) = chain(even_by[0], even_by[1], even_by[2]);
  }
  const double all = l[0] * l[1] * l[2];
  const double d0 = l[1] * l[2], d1 = l[0] * l[2], d2 = l[0] * l[1];
  g.row(6) = chain(d0, d1, d2);
  const double u = l[0] - l[1], v = l[1] - l[2];
  g.row(7) = chain(d0 * u + all, d1 * u - all, d2 * u);
  g.row(8) = chain(d0 * v, d1 * v + all, d2 * v - all);
  return g;
}

std::span<const BubblePoint> degree_6_rule() {
  static const auto rule = make_degree_6_rule();
  return rule;
}

}  // namespace thinspot::solver
