#include "solver/element.hpp"
#include "solver/profile.hpp"
#include "solver/section_error.hpp"
#include "solver/standing_out.hpp"
#include "solver/stretch.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace thinspot;
using namespace thinspot::solver;

namespace {

double size_of(const Stretches& set) {
  double sum = 0;
  for (const Stretch& s : set) sum += s.to - s.from;
  return sum;
}

/// One closed loop of n equal edges with values f(arc).
template <class F>
Profile closed_profile(int n, double length, F f) {
  SurfaceLoop loop;
  loop.length = length;
  Eigen::VectorXd values(2 * n);
  for (int k = 0; k < n; ++k) {
    const double from = length * k / n, to = length * (k + 1) / n;
    loop.edges.push_back(
        {from, to, 0, {2 * k, (2 * k + 2) % (2 * n), 2 * k + 1}});
    values(2 * k) = f(from);
    values(2 * k + 1) = f(0.5 * (from + to));
  }
  return Profile(loop, values);
}

}  // namespace

TEST_CASE("stretches: sets of arcs on a loop of 10") {
  const Stretches a = make_set({{8, 12}, {1, 3}}, 10);
  REQUIRE(a.size() == 1);
  CHECK(a[0].from == 8);
  CHECK(a[0].to == 13);
  CHECK(size_of(complement(a, 10)) == Approx(5));
  CHECK(holds(a, 0.5, 10));
  CHECK(holds(a, 9, 10));
  CHECK_FALSE(holds(a, 5, 10));
  CHECK(size_of(common(a, {{2, 9}}, 10)) == Approx(2));
  CHECK(complement({{0, 10}}, 10).empty());
  CHECK(size_of(complement({}, 10)) == Approx(10));
  CHECK(common(a, {{4, 6}}, 10).empty());
  CHECK(size_of(common({{0, 10}}, {{0, 10}}, 10)) == Approx(10));
}

TEST_CASE("profiles integrate their quadratics and go round the loop") {
  const double pi = std::numbers::pi;
  const auto wave = [&](double s) { return 2 + std::cos(2 * pi * s / 5); };
  const Profile p = closed_profile(40, 5, wave);
  CHECK(p.integral(0, 5) == Approx(10).epsilon(1e-6));
  CHECK(p.integral(4, 6) ==
        Approx(4 + 5 / pi * std::sin(2 * pi / 5)).epsilon(1e-5));
  CHECK(p.value_at(1.3) == Approx(wave(1.3)).epsilon(1e-4));
  // Average of a cosine over a window: sin(x)/x of its half width.
  const auto averages = p.averages({{0, 5}}, 0.5);
  double least = 9, at = 0;
  for (const Extreme& e : averages)
    if (e.value < least) least = e.value, at = e.arc;
  const double half = pi * 0.5 / 5;
  CHECK(least == Approx(2 - std::sin(half) / half).epsilon(1e-4));
  CHECK(at == Approx(2.5).margin(0.05));
}

TEST_CASE("a stretch shorter than the window gives its own average") {
  const Profile p = closed_profile(10, 1, [](double s) { return s; });
  const auto averages = p.averages({{0.2, 0.25}}, 0.3);
  REQUIRE(averages.size() == 1);
  CHECK(averages[0].value == Approx(0.225));
}

TEST_CASE("spots stand out or are not named") {
  std::vector<Extreme> hills;
  for (int k = 0; k < 200; ++k) {
    const double s = k / 200.0 * 2 * std::numbers::pi;
    hills.push_back(
        {s, 10 + std::cos(2 * s) + 0.3 * std::cos(s) + 0.1 * std::cos(40 * s)});
  }
  CHECK(standing_out(hills, +1, 0.3, true).size() == 2);
  CHECK(standing_out(hills, -1, 0.3, true).size() == 2);
  CHECK(standing_out(hills, +1, 0.0001, true).size() > 10);
  CHECK(standing_out(hills, +1, 0.3, true)[0].arc == Approx(0).margin(0.04));
  // An even surface has none.
  CHECK(
      standing_out(std::vector<Extreme>(50, {0, 1.0}), -1, 0.01, true).empty());
}

TEST_CASE("values come from the largest down, alike ones in their order") {
  using Order = std::vector<std::size_t>;
  CHECK(from_largest({}).empty());
  CHECK(from_largest({1, 3, 2}) == Order{1, 2, 0});
  CHECK(from_largest({-2, -1, -3}) == Order{1, 0, 2});
  // By less than the six digits that are told, wherever these are rounded.
  CHECK(from_largest({14.80275, 14.80275 + 1e-6, 20, 14.80275 - 1e-6}) ==
        Order{2, 0, 1, 3});
  CHECK(from_largest({14.8027, 14.8029}) == Order{1, 0});
}

TEST_CASE("quadrature rules are exact to their degree") {
  const auto factorial = [](int n) { return std::tgamma(n + 1.0); };
  // Integral of x^a y^b over the reference triangle: a! b! / (a+b+2)!.
  const auto error = [&](auto rule, int a, int b) {
    double sum = 0;
    for (const auto& q : rule)
      sum += q.weight * std::pow(q.x, a) * std::pow(q.y, b);
    return std::abs(sum - factorial(a) * factorial(b) / factorial(a + b + 2));
  };
  for (int a = 0; a <= 4; ++a)
    for (int b = 0; a + b <= 4; ++b) {
      CHECK(error(degree_4_rule(), a, b) < 1e-15);
      if (a + b <= 2) CHECK(error(degree_2_rule(), a, b) < 1e-15);
    }
  CHECK(error(degree_4_rule(), 5, 0) > 1e-6);
  for (int k = 0; k <= 8; ++k) {
    double sum = 0;
    for (const auto& q : gauss_rule()) sum += q.weight * std::pow(q.t, k);
    if (k <= 7)
      CHECK(sum == Approx(1.0 / (k + 1)).epsilon(1e-14));
    else
      CHECK(std::abs(sum - 1.0 / 9) > 1e-7);
  }
}

TEST_CASE("shape functions are 1 at their node, add up to 1") {
  const double x = 0.21, y = 0.37;
  CHECK(shape_functions(x, y).sum() == Approx(1).epsilon(1e-14));
  CHECK(shape_gradients(x, y).colwise().sum().norm() < 1e-14);
  CHECK(shape_functions(0.5, 0.5)(4) == Approx(1));
  CHECK(edge_functions(0.5)(2) == Approx(1));
  CHECK(std::abs(edge_derivatives(0.3).sum()) < 1e-14);
}

TEST_CASE("disc ratios rise with the Wagner number and end at 1") {
  double before = 0;
  for (double wagner : {0.0, 1e-4, 0.01, 0.02, 0.1, 0.5, 2.0, 50.0, 1e6}) {
    const DiscRatios r = disc_ratios(wagner);
    CHECK(r.least >= before);
    CHECK(r.largest <= 1);
    before = r.least;
  }
  CHECK(disc_ratios(1e6).least == 1);
}
