// Bands of a 1-D cell, whose thickness is an exact function of its inputs:
//   d = M t V / (n F rho (L/kappa + R))
// Source: Faraday's law and series connection. Bands, chances and shares are
// worked out from that formula here, not from the program's.
#include "bench_cases.hpp"
#include "solver/draws.hpp"
#include "solver/simulate.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

using namespace thinspot;
using solver::Forecast;
using solver::Result;

namespace {

constexpr double kLength = 0.1, kKappa = 5, kVolt = 1;
/// As much as the liquid has: both count alike.
constexpr double kSlope = kLength / kKappa;
const std::string kOfKappa = "solution.conductivity";
const std::string kOfSlope = "cathode.polarization_resistance";

/// Half widths relative to the values.
struct Doubts {
  double kappa = 0, slope = 0;
  bool slope_evenly = false;
  double by = 0;  ///< correlation
};

solver::Case cell(const Doubts& d) {
  solver::Case c = tests::channel(kLength, 0.03, kKappa, kSlope, 0, kVolt);
  c.solution.conductivity.plus_minus = d.kappa * kKappa;
  c.cathode.resistance.plus_minus = d.slope * kSlope;
  c.cathode.resistance.evenly = d.slope_evenly;
  if (d.by != 0) c.correlated = {{{kOfKappa, kOfSlope}, d.by}};
  return c;
}

/// Over that of the inputs as stated.
double exact(double kappa, double slope) {
  return (kLength / kKappa + kSlope) /
         (kLength / (kappa * kKappa) + slope * kSlope);
}

/// Standard normal distribution, by its definition.
double normal(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }

/// The chance that the thickness lies below a share of that as stated, by
/// integrals over both distributions: midpoints of equal steps out to eight
/// standard deviations, which for smooth integrands errs far less than the
/// step's square; the inner one is known in closed form.
double exact_share_below(double share, const Doubts& d) {
  const double sigma = 1.959963984540054;
  const int steps = 4000;
  double sum = 0;
  for (int k = 0; k < steps; ++k) {
    const double z = -8 + 16 * (k + 0.5) / steps;
    // What physics allows of a conductivity, as docs/case_file.md has it.
    const double kappa = std::max(1 + d.kappa * z / sigma, 0.05);
    // d < share of the base where L/kappa + R > base / share.
    const double needed =
        ((kLength / kKappa + kSlope) / share - kLength / (kappa * kKappa)) /
        kSlope;
    double above;
    if (d.slope_evenly)
      above = std::clamp(0.5 - (needed - 1) / (2 * d.slope), 0.0, 1.0);
    else
      above = 1 - normal(((needed - 1) / (d.slope / sigma) - d.by * z) /
                         std::sqrt(1 - d.by * d.by));
    sum += above * std::exp(-0.5 * z * z) / std::sqrt(2 * M_PI) * 16 / steps;
  }
  return sum;
}

struct Band {
  double least, low, high;
};

/// Of the least thickness, and that every point of the surface, all alike in
/// this cell, has it too.
Band band_of(const Result& r) {
  const solver::BandedSpread& t = r.parts[0].thickness;
  for (const solver::SurfacePoint& p : r.parts[0].surface) {
    if (!p.wetted) continue;
    CHECK(p.thickness_band.low == Approx(t.min_band.low).epsilon(1e-7));
    CHECK(p.thickness_band.high == Approx(t.min_band.high).epsilon(1e-7));
  }
  return {t.value.min, t.min_band.low, t.min_band.high};
}

double half_width(const Band& b) { return (b.high - b.low) / (2 * b.least); }

/// A sum of 400 draws by lot, three standard deviations of it.
double three_sigma(double share, double draws) {
  return 3 * std::sqrt(share * (1 - share) / draws);
}

}  // namespace

TEST_CASE("small doubts add up as derivatives say", "[exact]") {
  // d ln d = (d ln kappa - d ln R) / 2, where both resistances are alike.
  const Doubts d{0.02, 0.01};
  const Result r = solver::simulate(cell(d));
  REQUIRE(r.forecast.method == Forecast::Method::linear);
  // Ends differ from tangents by the doubt's share of their own change.
  CHECK(half_width(band_of(r)) ==
        Approx(0.5 * std::hypot(d.kappa, d.slope)).epsilon(d.kappa));
  const auto& doubts = r.forecast.doubts;
  REQUIRE(doubts.size() == 2);
  CHECK(doubts[0].inputs[0].key == kOfKappa);
  CHECK(doubts[0].share == Approx(0.8).epsilon(2 * d.kappa));
  CHECK(doubts[0].share + doubts[1].share == Approx(1));
}

TEST_CASE("a measurement leaves what the rest makes", "[exact]") {
  // Common practice at a bench is 3 % of a conductivity, half of 6 %.
  const Doubts d{0.06, 0.01};
  const Result r = solver::simulate(cell(d));
  REQUIRE(r.forecast.method == Forecast::Method::linear);
  const solver::Doubt& first = r.forecast.doubts[0];
  CHECK(first.left == Approx(0.5));
  CHECK((first.then.high - first.then.low) / (2 * r.forecast.least) ==
        Approx(0.5 * std::hypot(0.03, d.slope)).epsilon(d.kappa));
}

TEST_CASE("an even range counts as its variance", "[exact]") {
  // Variance h^2/3; a normal one of half width w has (w/1.96)^2.
  const double h = 0.01;
  const Band b = band_of(solver::simulate(cell({0, h, true})));
  const double as_normal = 1.959963984540054 / std::sqrt(3.0);
  CHECK((b.least - b.low) / b.least ==
        Approx(as_normal * (1 - exact(1, 1 + h))).epsilon(1e-6));
  CHECK((b.high - b.least) / b.least ==
        Approx(as_normal * (exact(1, 1 - h) - 1)).epsilon(1e-6));
}

TEST_CASE("correlated doubts cancel or add", "[exact]") {
  const double h = 0.004;
  const double by = GENERATE(-0.99, -0.5, 0.6, 0.99);
  CAPTURE(by);
  const Result r = solver::simulate(cell({h, h, false, by}));
  // Conductivity and slope act against each other, so that what goes together
  // cancels.
  CHECK(half_width(band_of(r)) ==
        Approx(0.5 * h * std::sqrt(2 - 2 * by)).epsilon(0.02));
  REQUIRE(r.forecast.doubts.size() == 1);
  CHECK(r.forecast.doubts[0].inputs.size() == 2);
  CHECK(r.forecast.doubts[0].share == Approx(1));
}

TEST_CASE("draws lie where the exact distribution has its ends", "[exact]") {
  const Doubts d =
      GENERATE(Doubts{0.5, 0.3}, Doubts{0.4, 0.6, true},
               Doubts{0.5, 0.4, false, 0.8}, Doubts{0.6, 0.4, false, -0.7});
  CAPTURE(d.kappa, d.slope, d.by);
  const Result r = solver::simulate(cell(d));
  REQUIRE(r.forecast.method == Forecast::Method::draws);
  REQUIRE(r.forecast.draws >= 400);
  const auto n = static_cast<double>(r.forecast.draws);
  const Band b = band_of(r);
  const double tolerance = three_sigma(0.025, n);
  CHECK(exact_share_below(b.low / b.least, d) ==
        Approx(0.025).margin(tolerance));
  CHECK(exact_share_below(b.high / b.least, d) ==
        Approx(0.975).margin(tolerance));
}

TEST_CASE("the same draws every time", "[property]") {
  const Doubts d{0.5, 0.3};
  const Band one = band_of(solver::simulate(cell(d)));
  const Band other = band_of(solver::simulate(cell(d)));
  CHECK(one.low == other.low);
  CHECK(one.high == other.high);
}

TEST_CASE("the chance of a target, by lot", "[exact]") {
  const Doubts d{0.5, 0.3};
  solver::Case c = cell(d);
  const double least = solver::simulate(c).parts[0].thickness.value.min;
  const double share = GENERATE(0.7, 0.9, 1.0, 1.1);
  CAPTURE(share);
  c.target.thickness = share * least;
  const Result r = solver::simulate(c);
  REQUIRE(r.forecast.method == Forecast::Method::draws);
  REQUIRE(r.target->chance);
  const double chance = 1 - exact_share_below(share, d);
  CHECK(*r.target->chance ==
        Approx(chance).margin(
            three_sigma(chance, static_cast<double>(r.forecast.draws))));
}

TEST_CASE("the chance of a target, by the straight way", "[exact]") {
  const Doubts d{0.02, 0.01};
  solver::Case c = cell(d);
  const double least = solver::simulate(c).parts[0].thickness.value.min;
  const double sigma = 0.5 * std::hypot(d.kappa, d.slope) / 1.959963984540054;
  const double z = GENERATE(-2.0, -1.0, 0.5, 1.5);
  CAPTURE(z);
  c.target.thickness = (1 + z * sigma) * least;
  const Result r = solver::simulate(c);
  REQUIRE(r.forecast.method == Forecast::Method::linear);
  REQUIRE(r.target->chance);
  // A width that is off by a share moves a normal chance by at most that times
  // the greatest z times density, 0.24.
  CHECK(*r.target->chance == Approx(1 - normal(z)).margin(0.24 * d.kappa));
}

TEST_CASE("nothing uncertain, nothing said", "[property]") {
  solver::Case c = cell({});
  c.target.thickness = 1e-6;
  const Result r = solver::simulate(c);
  CHECK(r.forecast.method == Forecast::Method::none);
  CHECK(r.forecast.doubts.empty());
  CHECK_FALSE(r.target->chance);
  for (const solver::SurfacePoint& p : r.parts[0].surface)
    CHECK(p.thickness_band.high == p.thickness_band.low);
}

TEST_CASE("an end at which the cell does not work is no deposit",
          "[property]") {
  solver::Case c = cell({0.1, 0.1});
  c.supply.voltage = solver::Quantity{1, 0};
  c.anodes[0].open_circuit_voltage = {0.9, 0.2};
  const Result r = solver::simulate(c);
  CHECK(r.forecast.method == Forecast::Method::draws);
  CHECK(r.parts[0].thickness.min_band.low == 0);
  // Voltage to spare is 0.1 +- 0.2 V: none in (1 - erf(0.98/sqrt 2)) / 2 of
  // all cases. Where any is needed the chance is that of the rest.
  c.target.thickness = 1e-12;
  const double works = normal(0.1 / (0.2 / 1.959963984540054));
  const auto draws = static_cast<double>(r.forecast.draws);
  CHECK(*solver::simulate(c).target->chance ==
        Approx(works).margin(three_sigma(works, draws)));
}

TEST_CASE("steps, layers, racks and growth have bands along the surface",
          "[property]") {
  solver::Case c = tests::token();
  c.solution.conductivity.plus_minus = 0.2 * c.solution.conductivity.value;
  c.cathode.resistance.plus_minus = 0.3 * c.cathode.resistance.value;
  std::vector<Result> results{solver::simulate(c)};
  solver::Case steps = c;
  steps.steps.push_back(steps.steps.front());
  steps.steps.back().motion.flip = true;
  results.push_back(solver::simulate(steps));
  results.push_back(solver::simulate(std::vector<solver::Case>{c, c}));
  solver::Case grown = c;
  grown.growth = true;
  results.push_back(solver::simulate(grown));
  for (const Result& r : results) {
    const solver::BandedSpread& t = r.parts[0].thickness;
    const solver::SurfacePoint* thinnest = nullptr;
    for (const solver::SurfacePoint& p : r.parts[0].surface) {
      if (!p.wetted) continue;
      CHECK(p.thickness_band.low <= p.thickness * (1 + 1e-12));
      CHECK(p.thickness_band.high >= p.thickness * (1 - 1e-12));
      if (!thinnest || p.thickness < thinnest->thickness) thinnest = &p;
    }
    // At the thinnest point the band is that of the least average over a
    // window, as far as point and average are the same and but for the mesh.
    const double same = std::abs(thinnest->thickness / t.value.min - 1) +
                        t.mesh_error.min / t.value.min;
    CHECK(thinnest->thickness_band.low / thinnest->thickness ==
          Approx(t.min_band.low / t.value.min).margin(same));
    CHECK(thinnest->thickness_band.high / thinnest->thickness ==
          Approx(t.min_band.high / t.value.min).margin(same));
  }
}

TEST_CASE("what no input moves has no doubt", "[property]") {
  // At a held current the thickness of this cell follows no resistance.
  solver::Case c = cell({0.5, 0.3});
  c.supply = {};
  c.supply.current = solver::Quantity{1, 0};
  const Result r = solver::simulate(c);
  CHECK(r.forecast.method == Forecast::Method::linear);
  REQUIRE(r.forecast.doubts.size() == 2);
  for (const solver::Doubt& doubt : r.forecast.doubts) CHECK(doubt.share == 0);
}
