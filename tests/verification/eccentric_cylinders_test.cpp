// A rod inside a wider tube, its axis beside the tube's, per metre of length.
// Bipolar coordinates (tau, sigma) make both circles coordinate lines:
//   cosh(tau1 - tau2) = (r1^2 + r2^2 - d^2) / (2 r1 r2)
// Fixed potentials: R' = (tau1 - tau2)/(2 pi kappa), and around the rod, theta
// from the direction of the nearest wall,
//   i = kappa V/(tau1 - tau2) sinh tau1 / (r1 (cosh tau1 - cos theta)).
// Source: Carslaw and Jaeger, Conduction of Heat in Solids, 1959, section 16.2
// (from memory). With laws on both: a Fourier series in sigma, whose
// coefficients the laws couple to their neighbours only.
#include "bench_cases.hpp"
#include "solved.hpp"

#include <catch2/catch.hpp>

#include <Eigen/LU>

#include <fmt/format.h>

#include <cmath>
#include <numbers>

using namespace thinspot;
using mesh::Point;

namespace {

constexpr double pi = std::numbers::pi;

struct Cylinders {
  double r1, r2, offset, kappa, cathode, anode;
};

/// One volt between the cylinders.
class Exact {
 public:
  explicit Exact(const Cylinders& g);
  double current() const { return current_; }  ///< [A/m]
  /// Of the rod, theta from the direction of the nearest wall [A/m2].
  double density(double theta) const;

 private:
  static constexpr int terms = 40;
  Cylinders g_;
  double c_, tau1_, tau2_, current_;
  Eigen::VectorXd x_;  ///< two coefficients for each multiple of sigma
};

/// Function and derivative by tau of the two solutions for cos(n sigma), as
/// large as one at most.
struct Mode {
  double value[2], slope[2];
};
Mode mode(int n, double tau, double tau1, double tau2) {
  if (n == 0) return {{1, tau}, {0, 1}};
  const double scale = 1 / std::cosh(n * (tau1 - tau2));
  const double c = scale * std::cosh(n * (tau - tau2));
  const double s = scale * std::sinh(n * (tau - tau2));
  return {{c, s}, {n * s, n * c}};
}

Exact::Exact(const Cylinders& g) : g_(g) {
  const double d = g.offset, sum = g.r1 + g.r2, gap = g.r2 - g.r1;
  c_ = std::sqrt((sum * sum - d * d) * (gap * gap - d * d)) / (2 * d);
  tau1_ = std::asinh(c_ / g.r1);
  tau2_ = std::asinh(c_ / g.r2);
  // phi + share (cosh tau - cos sigma) dphi/dtau = 0 at the rod, V at the tube.
  const int rows = terms + 1;
  Eigen::MatrixXd a = Eigen::MatrixXd::Zero(2 * rows, 2 * rows);
  Eigen::VectorXd b = Eigen::VectorXd::Zero(2 * rows);
  b(rows) = 1;
  for (const int side : {0, 1}) {
    const double tau = side == 0 ? tau1_ : tau2_;
    const double share = (side == 0 ? g.cathode : -g.anode) * g.kappa / c_;
    for (int n = 0; n <= terms; ++n) {
      const Mode m = mode(n, tau, tau1_, tau2_);
      for (const int k : {0, 1}) {
        const int row = side * rows + n, column = 2 * n + k;
        const double beside = -share * m.slope[k] * (n == 0 ? 1 : 0.5);
        a(row, column) += m.value[k] + share * std::cosh(tau) * m.slope[k];
        if (n < terms) a(row + 1, column) += beside;
        if (n > 0) a(row - 1, column) += beside;
      }
    }
  }
  x_ = a.partialPivLu().solve(b);
  current_ = -2 * pi * g.kappa * x_(1);
}

double Exact::density(double theta) const {
  const double t = tau1_, s2 = std::sinh(t) * std::sinh(t);
  const double cosine = std::cosh(t) - s2 / (std::cosh(t) - std::cos(theta));
  const double sigma = std::acos(std::clamp(cosine, -1.0, 1.0));
  double slope = 0;
  for (int n = 0; n <= terms; ++n) {
    const Mode m = mode(n, t, tau1_, tau2_);
    slope += (x_(2 * n) * m.slope[0] + x_(2 * n + 1) * m.slope[1]) *
             std::cos(n * sigma);
  }
  return -g_.kappa * (std::cosh(t) - cosine) / c_ * slope;
}

Point axis_of(const Cylinders& g) {
  const double tank = 1.3 * g.r2;
  return {tank + g.offset, tank};
}

solver::Case rod_in_tube(const Cylinders& g) {
  const double wall = 0.1 * g.r2, tank = 1.3 * g.r2;
  solver::Case c = tests::plan_box(2 * tank, 0, g.kappa);
  c.section.tank.shape = mesh::Tank::Shape::round;
  c.section.solids = {
      tests::solid(mesh::Role::part, "part", "rod", {{"diameter", 2 * g.r1}},
                   axis_of(g)),
      tests::solid(
          mesh::Role::anode, "tube", "tube",
          {{"diameter", 2 * (g.r2 + wall)}, {"wall", wall}, {"open", 1}},
          {tank, tank})};
  c.cathode.resistance.value = g.cathode;
  tests::add_anode(c, 1, g.anode);
  c.accuracy.averaging_length = 1e-3 * g.r1;
  return c;
}

}  // namespace

TEST_CASE("eccentric cylinders: closed form and series agree", "[exact]") {
  // Without laws the series has its first term only.
  const Cylinders g{1, 3, 1, 1, 0, 0};
  CHECK(Exact(g).current() == Approx(1 / 0.153174481265).epsilon(1e-11));
  CHECK(Exact(g).density(0) == Approx(1.39402308571).epsilon(1e-11));
  CHECK(Exact(g).density(pi) == Approx(0.774457269839).epsilon(1e-11));
  // With them: the same series to 30 digits (mpmath).
  const Exact polarized({1, 3, 1, 1, 0.5, 0.25});
  CHECK(polarized.current() == Approx(3.9779716396941).epsilon(1e-12));
  CHECK(polarized.density(0) == Approx(0.7321727251691).epsilon(1e-12));
  CHECK(polarized.density(pi / 2) == Approx(0.6258402680607).epsilon(1e-12));
  CHECK(polarized.density(pi) == Approx(0.5488201335003).epsilon(1e-12));
}

// Orders as for concentric cylinders: 4 of the current, 3 of the current
// density by the law, 2 of that at a fixed potential.
TEST_CASE("eccentric cylinders", "[exact][order][table]") {
  const Cylinders g =
      GENERATE(Cylinders{1, 3, 1, 1, 0, 0}, Cylinders{.0121, .05, .02, 5, 0, 0},
               Cylinders{1, 3, 1, 1, .5, .25},
               Cylinders{.0121, .05, .02, 5, 1e-3, 2e-4});
  CAPTURE(g.r1, g.r2, g.offset, g.cathode);
  const Exact exact(g);
  solver::Case c = rod_in_tube(g);
  const Point axis = axis_of(g);
  const std::vector<int> degrees{0, 180};
  for (const int angle : degrees) {
    const double theta = angle * pi / 180;
    c.probes.push_back(
        {"", axis + g.r1 * Point(std::cos(theta), std::sin(theta))});
  }
  const auto meshes = tests::family(c, 3);
  const auto own = tests::figures_of(tests::certified(c));
  const bool law = g.cathode > 0;
  const std::string name =
      fmt::format("cylinders, eccentric, {}", law ? "laws" : "fixed potential");
  const char* source = law ? "Fourier series in bipolar coordinates"
                           : "bipolar coordinates, Carslaw and Jaeger 1959, "
                             "sect. 16.2 (from memory)";
  const std::string where =
      fmt::format("r {:g} in {:g} m, {:g} m off", g.r1, g.r2, g.offset);
  tests::record(name, source, fmt::format("current, {} [A/m]", where),
                exact.current(), own.current,
                tests::order_on(meshes, 4, [&](const tests::Solved& s) {
                  return tests::total_current(s) - exact.current();
                }));
  const auto density_at = [&](const Point& p) {
    const Point r = p - axis;
    return exact.density(std::atan2(r.y(), r.x()));
  };
  const auto order =
      tests::order_on(meshes, law ? 3 : 2, [&](const tests::Solved& s) {
        return tests::density_error(s, density_at);
      });
  for (std::size_t k = 0; k < degrees.size(); ++k)
    tests::record(name, source,
                  fmt::format("i at {} deg, {} [A/m2]", degrees[k], where),
                  exact.density(degrees[k] * pi / 180), own.probes[k], order);
}
