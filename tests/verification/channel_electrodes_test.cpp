// Two equal plane electrodes opposite one another, flush in the walls of a
// channel of height h, length L, fixed potentials:
//   kappa R W = K(sech e) / K(tanh e),  e = pi L/(2 h)
//   i/mean = e cosh e / (K(tanh e) sqrt(sinh^2 e - sinh^2(2 e x/L)))
// with K of the modulus. Source: Newman and Thomas-Alyea, Electrochemical
// Systems, chapter 18 (from memory; derived anew by w = exp(pi z/h)).
// With the same law on both: an integral equation over the electrode whose
// logarithmic kernel is taken exactly in Chebyshev polynomials; digits that 200
// and 400 of them share. The wall goes on for 3 h beyond each edge, and what is
// cut off there is exp(-6 pi) = 7e-9 of the whole.
// Orders: an electrode's edge in a wall is a corner of 180 degrees between
// metal and insulator, lambda = 1/2; energies, and what they pollute, are of
// order 2 lambda = 1. With a law the potential there is r ln r: order 2 but for
// a logarithm (Strang and Fix, An Analysis of the Finite Element Method, 1973,
// chapter 8, from memory).
#include "bench_cases.hpp"
#include "solved.hpp"

#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <cmath>
#include <numbers>

using namespace thinspot;
using mesh::Point;
using mesh::Role;

namespace {

constexpr double pi = std::numbers::pi;
const std::vector<double> shares{0, 0.9};  // of the way to the edge
const char* const places[] = {"in the middle", "at x = 0.45 L"};
constexpr double height = 0.04, kappa = 5, deep = 0.1 * height;

/// The channel is drawn with a pit in each wall that an electrode fills.
solver::Case channel_with(double length, double wagner) {
  const double beyond = 3 * height, low = deep, high = deep + height;
  const double a = beyond, b = beyond + length, end = b + beyond;
  solver::Case c = tests::plan_box(0, 0, kappa);
  const std::vector<Point> corners{
      {0, low},         {a, low},         {a, 0},      {b, 0},
      {b, low},         {end, low},       {end, high}, {b, high},
      {b, high + deep}, {a, high + deep}, {a, high},   {0, high}};
  mesh::Loop wall;
  for (std::size_t k = 0; k < corners.size(); ++k)
    wall.push_back({corners[k], corners[(k + 1) % corners.size()], 0, ""});
  c.section.tank.shape = mesh::Tank::Shape::outline;
  c.section.tank.drawn = {{wall}};
  const mesh::Sizes sizes{{"width", length}, {"height", deep}};
  const double middle = a + length / 2;
  c.section.solids = {
      tests::solid(Role::part, "part", "plate", sizes, {middle, deep / 2}),
      tests::solid(Role::anode, "anode", "plate", sizes,
                   {middle, high + deep / 2})};
  c.cathode.resistance.value = wagner * height / kappa;
  tests::add_anode(c, 1, c.cathode.resistance.value);
  c.accuracy.averaging_length = 1e-3 * length;
  return c;
}

/// Adds probes there, from the middle to the right.
void add_probes(solver::Case& c) {
  const Point middle = c.section.solids[0].at;
  const double length = c.section.solids[0].sizes.at("width");
  for (const double share : shares)
    c.probes.push_back({"", middle + Point(share * length / 2, deep / 2)});
}

/// The order on meshes that begin with edges large enough to be seen.
tests::Order current_order(solver::Case c, double exact, double expected) {
  c.accuracy = {0.05, height};
  c.probes.clear();
  return tests::order_on(
      tests::family(c, 3), expected,
      [&](const tests::Solved& s) { return tests::total_current(s) - exact; });
}

}  // namespace

TEST_CASE("electrodes in opposite channel walls, fixed potentials",
          "[exact][order][table]") {
  const double ratio = GENERATE(1.0, 2.0);  // length over height
  CAPTURE(ratio);
  const double e = pi * ratio / 2, k = std::comp_ellint_1(std::tanh(e));
  const double resistance = std::comp_ellint_1(1 / std::cosh(e)) / k;
  solver::Case c = channel_with(ratio * height, 0);
  add_probes(c);
  const auto own = tests::figures_of(tests::certified(c));
  const char* name = "electrodes in channel walls, fixed potential";
  const char* source = "Newman and Thomas-Alyea, ch. 18 (from memory)";
  tests::record(name, source, fmt::format("current, L = {:g} h [A/m]", ratio),
                kappa / resistance, own.current,
                current_order(c, kappa / resistance, 1));
  for (std::size_t j = 0; j < shares.size(); ++j) {
    const double s = std::sinh(e), x = std::sinh(shares[j] * e);
    const double exact = e * std::cosh(e) / (k * std::sqrt(s * s - x * x));
    tests::record(name, source,
                  fmt::format("i/mean {}, L = {:g} h", places[j], ratio), exact,
                  own.shares[j]);
  }
}

TEST_CASE("electrodes in opposite channel walls, with laws",
          "[exact][order][table]") {
  struct Polarized {
    double ratio, wagner;  ///< kappa R over the height
    double current;        ///< over kappa and volt
    double at[2];          ///< over the mean, at 0, 0.9
  };
  const Polarized row = GENERATE(
      Polarized{0.5, 0.1, 0.662076695019, {0.8455222547, 1.2754848225}},
      Polarized{1, 0.1, 1.08674946015, {0.8286418106, 1.332805260}},
      Polarized{1, 1, 0.365490156948, {0.9608387640, 1.065803628}});
  CAPTURE(row.ratio, row.wagner);
  solver::Case c = channel_with(row.ratio * height, row.wagner);
  add_probes(c);
  const auto own = tests::figures_of(tests::certified(c));
  const char* name = "electrodes in channel walls, laws";
  const char* source = "integral equation, Chebyshev polynomials";
  const std::string which =
      fmt::format("L = {:g} h, kappa R = {:g} h", row.ratio, row.wagner);
  const double exact = kappa * row.current;
  tests::record(name, source, fmt::format("current, {} [A/m]", which), exact,
                own.current, current_order(c, exact, 2));
  for (std::size_t j = 0; j < shares.size(); ++j)
    tests::record(name, source, fmt::format("i/mean {}, {}", places[j], which),
                  row.at[j], own.shares[j]);
}
