#include "solver/bubbles.hpp"

#include "solver/element.hpp"

#include <catch2/catch.hpp>

#include <Eigen/LU>

#include <cmath>

using namespace thinspot;

TEST_CASE("bubbles vanish at corners and middles of edges") {
  for (const auto& [x, y] :
       {std::pair{0., 0.}, {1., 0.}, {0., 1.}, {.5, 0.}, {.5, .5}, {0., .5}}) {
    const solver::BubbleValues b = solver::bubble_values(x, y);
    for (int k : {0, 2, 4, 6, 7, 8}) CHECK(b(k) == Approx(0).margin(1e-15));
  }
}

TEST_CASE("an edge's bubbles live on that edge alone") {
  for (double t : {0.1, 0.37, 0.8}) {
    const Eigen::Vector2d along = solver::edge_bubbles(t);
    const solver::BubbleValues on[] = {solver::bubble_values(t, 0),
                                       solver::bubble_values(1 - t, t),
                                       solver::bubble_values(0, 1 - t)};
    for (int edge = 0; edge < 3; ++edge)
      for (int k = 0; k < solver::kBubbles; ++k) {
        CAPTURE(t, edge, k);
        const double expected = k / 2 == edge ? along(k % 2) : 0;
        CHECK(on[edge](k) == Approx(expected).margin(1e-15));
      }
  }
}

TEST_CASE("gradients of bubbles are their derivatives") {
  const double x = 0.23, y = 0.31, h = 1e-6;
  const solver::BubbleGradients g = solver::bubble_gradients(x, y);
  const solver::BubbleValues by_x =
      (solver::bubble_values(x + h, y) - solver::bubble_values(x - h, y)) /
      (2 * h);
  const solver::BubbleValues by_y =
      (solver::bubble_values(x, y + h) - solver::bubble_values(x, y - h)) /
      (2 * h);
  for (int k = 0; k < solver::kBubbles; ++k) {
    CAPTURE(k);
    // Central differences of quartics: h^2 off.
    CHECK(g(k, 0) == Approx(by_x(k)).margin(1e-9));
    CHECK(g(k, 1) == Approx(by_y(k)).margin(1e-9));
  }
}

TEST_CASE("quadratics and bubbles together make all quartics") {
  // Fifteen functions at fifteen points of a lattice: independent.
  Eigen::Matrix<double, 15, 15> all;
  int row = 0;
  for (int j = 0; j <= 4; ++j)
    for (int k = 0; j + k <= 4; ++k, ++row) {
      const double x = j / 4., y = k / 4.;
      all.row(row) << solver::shape_functions(x, y).transpose(),
          solver::bubble_values(x, y).transpose();
    }
  REQUIRE(row == 15);
  CHECK(all.fullPivLu().rank() == 15);
}

TEST_CASE("the rule of sixteen points is exact to degree 6") {
  // Integral of x^a y^b over the triangle: a! b! / (a + b + 2)!.
  for (int a = 0; a <= 6; ++a)
    for (int b = 0; a + b <= 6; ++b) {
      double sum = 0;
      for (const solver::BubblePoint& q : solver::degree_6_rule())
        sum += q.weight * std::pow(q.x, a) * std::pow(q.y, b);
      CAPTURE(a, b);
      CHECK(sum == Approx(std::tgamma(a + 1) * std::tgamma(b + 1) /
                          std::tgamma(a + b + 3))
                       .epsilon(1e-13));
    }
}
