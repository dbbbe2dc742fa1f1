#include "solver/bubble_forms.hpp"

#include <catch2/catch.hpp>

#include <Eigen/Core>

#include <array>
#include <cmath>
#include <functional>

using namespace thinspot;
using solver::kBubbles;

namespace {

using Field = std::function<double(double x, double y)>;
using Values = Eigen::Matrix<double, 6, 1>;

solver::TriangleNodes straight() {
  solver::TriangleNodes p;
  p.leftCols(3) << 1.2, 2.0, 1.5,  //
      0.1, 0.4, 1.3;
  for (int k = 0; k < 3; ++k)
    p.col(3 + k) = 0.5 * (p.col(k) + p.col((k + 1) % 3));
  return p;
}

solver::TriangleNodes bent() {
  solver::TriangleNodes p = straight();
  p.col(4) += Eigen::Vector2d(0.08, 0.05);
  return p;
}

Values at(const solver::TriangleNodes& p, const Field& field) {
  Values v;
  for (int k = 0; k < 6; ++k) v(k) = field(p(0, k), p(1, k));
  return v;
}

/// By Gauss: the integral of grad b . grad u over the triangle is that of b
/// times u's outward derivative along its edges, where u has no sources. A
/// bubble lives on one edge, or on none.
void check_gauss(const solver::TriangleNodes& p, bool axisymmetric,
                 const Field& field) {
  const Values u = at(p, field);
  const Eigen::Matrix<double, kBubbles, 1> inside =
      solver::bubble_forms(p, axisymmetric).mixed * u;
  const Eigen::Matrix<double, 6, 1> along =
      solver::outward_form(p, axisymmetric) * u;
  REQUIRE(inside.norm() > 0.01);  // it says something
  for (int k = 0; k < kBubbles; ++k) {
    CAPTURE(k);
    // Both rules are exact for these: rounding alone is left.
    CHECK(std::abs(inside(k) - (k < 6 ? along(k) : 0)) < 1e-13);
  }
}

}  // namespace

TEST_CASE("what bubbles make of a field without sources lies on the edges") {
  check_gauss(straight(), false,
              [](double x, double y) { return x * x - y * y + 3 * x * y; });
  // Of curved triangles' functions those without sources are linear.
  check_gauss(bent(), false, [](double x, double y) { return 2 * x - 3 * y; });
  // Around an axis x is the radius: 2 + 2 - 4 = 0.
  check_gauss(straight(), true,
              [](double r, double z) { return r * r - 2 * z * z; });
}

TEST_CASE("a triangle bent by next to nothing has the forms of a plain one") {
  solver::TriangleNodes p = straight();
  const solver::BubbleForms plain = solver::bubble_forms(p, false);
  const solver::OutwardForm outward = solver::outward_form(p, false);
  p.col(3).x() += 1e-11;  // no longer taken for straight
  const solver::BubbleForms other = solver::bubble_forms(p, false);
  REQUIRE(other.energy != plain.energy);
  // Off by as much as it is bent, times numbers of the forms' size.
  CHECK((other.energy - plain.energy).norm() < 1e-9 * plain.energy.norm());
  CHECK((other.mixed - plain.mixed).norm() < 1e-9 * plain.mixed.norm());
  CHECK((solver::outward_form(p, false) - outward).norm() <
        1e-9 * outward.norm());
}

TEST_CASE("the energy of bubbles is symmetric and definite") {
  for (bool axisymmetric : {false, true})
    for (const solver::TriangleNodes& p : {straight(), bent()}) {
      const auto energy = solver::bubble_forms(p, axisymmetric).energy;
      CHECK((energy - energy.transpose()).norm() < 1e-14 * energy.norm());
      for (int k = 0; k < kBubbles; ++k) CHECK(energy(k, k) > 0);
    }
}
