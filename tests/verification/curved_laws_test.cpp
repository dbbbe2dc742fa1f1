// Electrodes whose law is no straight line, against closed forms of the 1-D
// cell and against the law itself in two dimensions.
//   Tafel           V = i Rt + b ln(i/i0)
//   Butler-Volmer   V = i Rt + over,  i = i0 (exp(over/b) - exp(-over/b'))
// Digits by mpmath, the first with Lambert's W (Corless et al., Adv. Comput.
// Math. 5 (1996) 329, from memory).
#include "bench_cases.hpp"
#include "mesh/errors.hpp"
#include "solved.hpp"
#include "solver/estimate.hpp"
#include "solver/polarization.hpp"

#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <cmath>
#include <numbers>

using namespace thinspot;
using solver::Law;

namespace {

constexpr double kVolts = 0.0256925791214937;  // RT/F at 298.15 K
const double ln10 = std::numbers::ln10;

/// b = RT/(alpha F), as volts a decade.
double decade(double alpha) { return kVolts / alpha * ln10; }

void set(solver::Polarization& p, Law law, double exchange, double alpha,
         double reverse) {
  p.law = law;
  p.exchange_current_density.value = exchange;
  p.tafel_slope.value = decade(alpha);
  p.reverse_tafel_slope.value = decade(reverse);
}

struct Cell {
  double voltage, length, conductivity, exchange;
  double tafel, butler_volmer, both, limited;  // [A/m2]
};

double density_in(const solver::Case& c) {
  return tests::solved(c).outcome.parts[0].current_density_spread.mean;
}

solver::Case tafel_token() {
  solver::Case c = tests::token();
  c.cathode = {};
  set(c.cathode, Law::tafel, 1, 0.5, 0.5);
  return c;
}

}  // namespace

TEST_CASE("1-D cells with curved laws", "[exact][table]") {
  const Cell g = GENERATE(Cell{.5, .1, 5, 1, 17.627601873868, 17.627578650208,
                               12.137989145105, 17.42334459661},
                          Cell{1, .1, 5, 1, 40.490973320304, 40.490972421518,
                               32.160579208334, 39.952795147754},
                          Cell{.3, .05, 50, 10, 158.1331630848, 158.13254288858,
                               82.118220355768, 122.51818178479},
                          Cell{1, .05, 50, 10, 776.36955386101, 776.36955253444,
                               582.27446375659, 199.99930712788},
                          Cell{2, .08, 1.2, 1, 27.4469876927, 27.446986371648,
                               25.033413666637, 27.336802668868});
  solver::Case c =
      tests::channel(g.length, 0.03, g.conductivity, 0, 0, g.voltage);
  const auto compare = [&](const char* law, double exact) {
    // The search ends at 1e-10 of the current density.
    tests::record("1-D cell, curved laws", "mpmath",
                  fmt::format("i, {}, {:g} V, {:g} S/m [A/m2]", law, g.voltage,
                              g.conductivity),
                  exact, {density_in(c), 1e-9 * exact},
                  {tests::Order::Kind::exact});
  };
  set(c.cathode, Law::tafel, g.exchange, 0.5, 0.5);
  compare("Tafel", g.tafel);
  set(c.cathode, Law::butler_volmer, g.exchange, 0.5, 1.5);
  compare("Butler-Volmer", g.butler_volmer);
  c.cathode.mass_transfer = true;
  c.solution.limiting_current_density = solver::Quantity{200, 0};
  compare("Butler-Volmer below 200 A/m2", g.limited);
  c.cathode.mass_transfer = false;
  set(c.cathode, Law::butler_volmer, g.exchange, 0.5, 0.5);
  set(c.anodes[0].polarization, Law::butler_volmer, g.exchange, 0.5, 0.5);
  compare("Butler-Volmer at both", g.both);
}

TEST_CASE("a linear law below a limit, and a bag before a curve", "[exact]") {
  const double length = 0.05, conductivity = 50, limit = 200, slope = 2e-4;
  const double voltage = GENERATE(0.05, 0.3, 1.5);
  CAPTURE(voltage);
  solver::Case c =
      tests::channel(length, 0.03, conductivity, slope, 0, voltage);
  c.cathode.mass_transfer = true;
  c.solution.limiting_current_density = solver::Quantity{limit, 0};
  const double i = density_in(c);
  // The search ends at 1e-10 of it.
  CHECK(i < (1 + 1e-9) * limit);
  if (voltage < 1)  // else the logarithm is of rounding
    CHECK(i * (length / conductivity + slope) -
              0.5 * kVolts * std::log1p(-i / limit) ==
          Approx(voltage).epsilon(1e-8));

  c = tests::channel(length, 0.03, conductivity, slope, 0, voltage);
  set(c.anodes[0].polarization, Law::butler_volmer, 10, 0.5, 0.5);
  c.anodes[0].bag_resistance.value = 3e-4;
  const double j = density_in(c);
  CHECK(j * (length / conductivity + slope + 3e-4) +
            2 * kVolts * std::asinh(j / 20) ==
        Approx(voltage).epsilon(1e-9));
}

TEST_CASE("the search for curved laws is Newton's", "[convergence]") {
  solver::Case c = tafel_token();
  c.thieves.clear();
  const bool limited = GENERATE(false, true);
  CAPTURE(limited);
  if (limited) {
    c.cathode.mass_transfer = true;
    c.solution.limiting_current_density = solver::Quantity{400, 0};
  }
  const auto s = tests::solved(c);
  const std::vector<double>& bent = s.outcome.point.bent;
  REQUIRE(bent.size() >= 3);
  CHECK(bent.size() <= 12);
  CHECK(bent.back() < 1e-10);
  // Each round leaves the square of the one before, times a constant of the
  // law's bend: the ratio stays bounded while the rounds fall to rounding.
  int squares = 0;
  for (std::size_t k = 1; k < bent.size(); ++k) {
    CAPTURE(k, bent[k - 1], bent[k]);
    if (bent[k - 1] > 0.05 || bent[k] < 1e-13) continue;
    CHECK(bent[k] < 2 * bent[k - 1] * bent[k - 1]);
    ++squares;
  }
  CHECK(squares >= 1);
}

TEST_CASE("a search that begins where it ended is done at once") {
  solver::Case c = tafel_token();
  c.thieves.clear();
  // Besides a curved law one that goes by its mean.
  c.anodes[0].polarization.resistance = {1e-4, 0};
  c.anodes[0].polarization.at = 100;
  const solver::Model model = solver::build_model(c);
  const solver::Outcome first = solver::evaluate(model, c);
  REQUIRE(first.point.bent.size() >= 3);
  const solver::Outcome again = solver::evaluate(model, c, {&first.point});
  CHECK(again.point.bent.size() == 1);
  // Settled to 1e-10 both times.
  CHECK(again.point.terminal_voltage ==
        Approx(first.point.terminal_voltage).epsilon(1e-9));
  CHECK((again.parts[0].current_density - first.parts[0].current_density)
            .norm() <= 1e-9 * first.parts[0].current_density.norm());
}

TEST_CASE("every point keeps to a curved law", "[property]") {
  solver::Case c = tafel_token();
  set(c.anodes[0].polarization, Law::butler_volmer, 5, 1.5, 0.5);
  const auto s = tests::solved(c);
  const auto& w = s.outcome.point;
  for (std::size_t e = 0; e < 2; ++e) {
    const auto& electrode = s.model.response.electrodes().each[e];
    const Eigen::VectorXd density =
        solver::current_density(s.model.response, w, e);
    const Eigen::VectorXd potential = w.answers.potential * w.drive;
    for (std::size_t k = 0; k < electrode.rows.size(); ++k) {
      const double over =
          potential(electrode.rows[k]) - w.drive(static_cast<Eigen::Index>(e));
      const double law = e == 0 ? std::exp(over / (2 * kVolts))
                                : 5 * (std::exp(over / (2 * kVolts)) -
                                       std::exp(-over / (kVolts / 1.5)));
      CHECK(density(static_cast<Eigen::Index>(k)) == Approx(law).epsilon(1e-8));
    }
  }
  CHECK(w.current.sum() == Approx(0).margin(1e-8));
  CHECK(w.total_current == Approx(0.33).epsilon(1e-9));
}

// At overpotentials far below b a Butler-Volmer law is a resistance of
// RT/((a + a') F i0); with a = a' it bends with the third power only.
TEST_CASE("a large exchange current is a resistance", "[property]") {
  solver::Case c = tests::token();
  c.cathode = {};
  c.cathode.resistance.value = 2.6e-4;
  c.supply.current = solver::Quantity{0.0033, 0};
  const auto linear = tests::solved(c).outcome.parts[0].current_density_spread;
  set(c.cathode, Law::butler_volmer, kVolts / 2.6e-4, 0.5, 0.5);
  const auto curved = tests::solved(c).outcome.parts[0].current_density_spread;
  // i R over b, squared, over 24.
  const double bend = std::pow(linear.max * 2.6e-4 / kVolts, 2) / 24;
  CHECK(std::abs(curved.min / linear.min - 1) < bend + 1e-8);
  CHECK(std::abs(curved.max / linear.max - 1) < bend + 1e-8);
}

TEST_CASE("bars of curved laws hold", "[property]") {
  solver::Case c = tafel_token();
  const bool limited = GENERATE(false, true);
  if (limited) {
    c.cathode.mass_transfer = true;
    c.solution.limiting_current_density = solver::Quantity{400, 0};
  }
  const auto coarse = tests::solved(c);
  const auto fine = tests::refined(tests::refined(coarse));
  const auto a = tests::figures_of(coarse), b = tests::figures_of(fine);
  const auto check = [](const tests::Figure& x, const tests::Figure& y) {
    CHECK(x.bar > 0);
    CHECK(y.bar < x.bar);
    CHECK(std::abs(x.value - y.value) <= x.bar + y.bar);
  };
  check(a.resistance, b.resistance);
  REQUIRE(a.probes.size() == b.probes.size());
  const auto& of_coarse = coarse.outcome.parts[0].current_density_spread;
  const auto& of_fine = fine.outcome.parts[0].current_density_spread;
  const auto bars =
      solver::estimate_errors(coarse.model, coarse.used, coarse.outcome)
          .errors.parts[0];
  CHECK(std::abs(of_coarse.min - of_fine.min) <= 1.2 * bars.least);
  CHECK(std::abs(of_coarse.max - of_fine.max) <= 1.2 * bars.largest);
}

TEST_CASE("more than mass transfer brings is refused", "[property]") {
  solver::Case c = tafel_token();
  c.cathode.mass_transfer = true;
  c.solution.limiting_current_density =
      solver::Quantity{150, 0};  // the mean is 205
  CHECK_THROWS_AS(tests::solved(c), InputError);
  // A voltage limit is reached instead.
  c.supply.voltage_limit = 3;
  const auto s = tests::solved(c);
  CHECK(s.outcome.point.limited_by == "voltage limit");
  CHECK(s.outcome.parts[0].current_density_spread.max < (1 + 1e-9) * 150);
}
