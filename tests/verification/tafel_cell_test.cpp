// 1-D cell with a Tafel cathode, V = i Rt + b ln(i/i0), Rt = L/kappa:
//   i = (b/Rt) W(Rt i0/b exp(V/b)),  W the main branch of Lambert's function.
// Source: Corless et al., Adv. Comput. Math. 5 (1996) 329, for W (from memory).
// The program's law is linear, eta = offset + R i. A resistance given at a
// current density promises a Tafel slope, R = b/i wherever the mean current
// comes to lie; the offset is the user's: with that of the tangent at the
// working point both current and slope are those of the Tafel law, with any
// other the current is off by what the logarithm bends.
#include "bench_cases.hpp"
#include "solved.hpp"

#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <cmath>

using namespace thinspot;

namespace {

/// Main branch, x > 0: Newton's method for w + ln w = ln x.
double lambert(double log_x) {
  double w = log_x > 1 ? log_x - std::log(log_x) : std::exp(log_x - 1);
  for (int k = 0; k < 50; ++k) w *= (1 + log_x - std::log(w)) / (1 + w);
  return w;
}

struct Cell {
  double voltage, length, conductivity, exchange;
  double digits;  ///< of the current density, mpmath [A/m2]
};

constexpr double slope = 0.051385158242987;  // RT/(F/2) at 298.15 K [V]

double tafel_current(const Cell& g) {
  const double total = g.length / g.conductivity;
  return slope / total *
         lambert(std::log(total * g.exchange / slope) + g.voltage / slope);
}

/// The program's linear law with the Tafel slope, stated at any current.
solver::Case linear_cell(const Cell& g, double offset) {
  solver::Case c =
      tests::channel(g.length, 0.03, g.conductivity, 0, 0, g.voltage);
  const double anywhere = 37;  // [A/m2]
  c.cathode.resistance.value = slope / anywhere;
  c.cathode.at = anywhere;
  c.cathode.offset.value = offset;
  return c;
}

}  // namespace

TEST_CASE("Tafel cathode in a 1-D cell", "[exact][table]") {
  const Cell g = GENERATE(Cell{.5, .1, 5, 1, 17.627601873868},
                          Cell{.3, .05, 50, 10, 158.1331630848});
  const double exact = tafel_current(g);
  CHECK(exact == Approx(g.digits).epsilon(1e-11));
  const double tangent = slope * std::log(exact / g.exchange) - slope;
  const auto s = tests::solved(linear_cell(g, tangent));
  // Rescaling ends at 1e-10 of the resistance; rounding as in any 1-D cell.
  const char* name = "1-D cell, Tafel cathode";
  const char* source = "Lambert's W";
  const std::string which =
      fmt::format("{:g} V, {:g} S/m", g.voltage, g.conductivity);
  tests::record(name, source, fmt::format("i at {} [A/m2]", which), exact,
                {s.outcome.parts[0].current_density_spread.mean, 1e-8 * exact},
                {tests::Order::Kind::exact});
  tests::record(name, source, fmt::format("d eta/d i at {} [ohm m2]", which),
                slope / exact,
                {s.outcome.point.laws[0].resistance, 1e-8 * slope / exact},
                {tests::Order::Kind::exact});
}

TEST_CASE("a Tafel law away from the tangent's current", "[exact]") {
  // The offset of 1 V's tangent, at 1.1 V: the law takes eta as it was, a Tafel
  // cathode would take b ln of the ratio of currents more.
  const Cell g{1, .1, 5, 1, 0};
  Cell higher = g;
  higher.voltage = 1.1;
  const double offset = slope * std::log(tafel_current(g) / g.exchange) - slope;
  const auto s = tests::solved(linear_cell(higher, offset));
  const double found = s.outcome.parts[0].current_density_spread.mean;
  const double exact = tafel_current(higher);
  const double bent = slope * std::log(exact / tafel_current(g));
  CHECK((found - exact) * g.length / g.conductivity ==
        Approx(bent).epsilon(1e-6));
}
