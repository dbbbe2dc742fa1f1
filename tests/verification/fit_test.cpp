// Fitting to readings: exact cells are recovered, derivatives agree with
// differences, and what cannot be told is said.
#include "fit_cases.hpp"
#include "solver/test_cells.hpp"
#include "table.hpp"

#include <Eigen/LU>
#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

using namespace thinspot;
using solver::Reading;
using In = Reading::In;
using Of = Reading::Of;
using Where = Reading::Where;
using tests::cell;
using tests::cell_voltage;
using tests::fit_token;
using tests::kGap;
using tests::kHeight;
using tests::reading;
using tests::token_readings;
using tests::voltage_at;

namespace {

const solver::FittedValue& value_of(const solver::Fit& f,
                                    const std::string& key) {
  for (const solver::FittedValue& v : f.values)
    if (v.key == key) return v;
  FAIL("no value of " + key);
  return f.values.front();
}

}  // namespace

TEST_CASE("exact cells are recovered from their voltages", "[fit]") {
  const double kappa = 12, slope = 3e-4, offset = 0.15;
  const solver::Case start = cell(kGap, 20, 1e-4, 0);
  std::vector<Reading> here, there;
  for (const double current : {0.2, 0.5, 1.0}) {
    here.push_back(voltage_at(
        current, cell_voltage(current, kGap, kappa, slope, offset), 1e-3));
    there.push_back(voltage_at(
        current, cell_voltage(current, 0.03, kappa, slope, offset), 1e-3));
  }
  const solver::Fit f =
      solver::fit(start, {{start, here}, {cell(0.03, 20, 1e-4, 0), there}});
  // The mesh is exact here; the search ends at 1e-7.
  CHECK(value_of(f, "solution.conductivity").value ==
        Approx(kappa).epsilon(1e-6));
  CHECK(value_of(f, "cathode.polarization_resistance").value ==
        Approx(slope).epsilon(1e-5));
  CHECK(value_of(f, "cathode.polarization_offset").value ==
        Approx(offset).epsilon(1e-5));
  CHECK(f.untold.empty());
  CHECK(f.squares < 1e-6);
  // Linear in gap/kappa, slope and offset: the covariance is that of a linear
  // regression on (I gap / A, I / A, 1), in 1/kappa.
  Eigen::MatrixXd x(6, 3);
  int row = 0;
  for (const double gap : {kGap, 0.03})
    for (const double current : {0.2, 0.5, 1.0})
      x.row(row++) << current * gap / kHeight, current / kHeight, 1;
  const Eigen::MatrixXd c = (x.transpose() * x).inverse() * 1e-6;
  CHECK(value_of(f, "solution.conductivity").plus_minus ==
        Approx(kappa * kappa * std::sqrt(c(0, 0))).epsilon(1e-3));
  CHECK(value_of(f, "cathode.polarization_resistance").plus_minus ==
        Approx(std::sqrt(c(1, 1))).epsilon(1e-3));
  CHECK(value_of(f, "cathode.polarization_offset").plus_minus ==
        Approx(std::sqrt(c(2, 2))).epsilon(1e-3));
}

TEST_CASE("what the case states counts as a reading", "[fit]") {
  solver::Case c = cell(kGap, 20, 1e-4, 0);
  c.solution.conductivity.plus_minus = 2;
  c.cathode.resistance.plus_minus = 1e-9;
  c.cathode.offset.plus_minus = 1e-9;
  // A reading as sure of the conductivity as the case: half way, by logarithm.
  const double other = 24;
  const double volts = cell_voltage(1, kGap, other, 1e-4, 0);
  const double by_log = 1 / kHeight * kGap / 21.9;  // d volts / d ln kappa
  const solver::Fit f =
      solver::fit(c, {{c, {voltage_at(1, volts, 0.1 * by_log)}}});
  const auto& v = value_of(f, "solution.conductivity");
  CHECK(v.value == Approx(std::sqrt(20 * other)).epsilon(5e-3));
  CHECK(v.plus_minus == Approx(0.1 * v.value / std::sqrt(2)).epsilon(2e-2));
}

TEST_CASE("slopes of readings against differences", "[fit][sensitivity]") {
  solver::Case c = fit_token(18, 2e-4, 0.1);
  std::vector<solver::Experiment> experiments = token_readings(c);
  Reading panel = reading(Of::thickness, 7e-6, 7e-7);
  panel.in = In::panel;
  panel.where = Where::along;
  panel.distance = 0.03;
  Reading cathodes = reading(Of::ratio, 4, 0.1);
  cathodes.in = In::two_cathodes;
  experiments[0].readings.push_back(panel);
  experiments[0].readings.push_back(cathodes);
  solver::FitOptions options;
  options.keys = {"solution.efficiency", "supply.lead_resistance"};
  c.supply.lead_resistance.value = 0.05;
  for (solver::Experiment& e : experiments)
    e.content.supply.lead_resistance.value = 0.05;
  solver::FitModel model(c, experiments, solver::fit_parameters(c, options));
  const Eigen::VectorXd x = solver::start_of(model.parameters());
  model.mesh(x);
  const Eigen::MatrixXd slopes = model.slopes(x);
  const Eigen::VectorXd here = model.values(x);
  for (Eigen::Index p = 0; p < x.size(); ++p) {
    CAPTURE(model.parameters()[static_cast<std::size_t>(p)].key);
    // Fourth order: error h^4/30 of the fifth derivative; 1e-10 over h.
    const double h = 3e-3;
    const auto at = [&](double share) {
      Eigen::VectorXd y = x;
      y(p) += share * h;
      return model.values(y);
    };
    const Eigen::VectorXd by =
        (8 * (at(1) - at(-1)) - (at(2) - at(-2))) / (12 * h);
    for (Eigen::Index r = 0; r < by.size(); ++r) {
      CAPTURE(r);
      // The ratio's is by differences of second order itself.
      const double agrees =
          model.readings()[static_cast<std::size_t>(r)].of == Of::ratio ? 1e-5
                                                                        : 1e-6;
      CHECK(std::abs(slopes(r, p) - by(r)) <= agrees * std::abs(here(r)));
    }
  }
}

// Source: with straight laws M = (K + W) / (1 + W), K = far/near and
// W = kappa R / near, so that Field's throwing power is 100 W / (2 + W)
// whatever K: both branches in one dimension, by hand.
TEST_CASE("masses in a cell of two cathodes", "[fit][exact][table]") {
  const double wagner = GENERATE(0.0, 0.25, 1.0, 4.0);
  CAPTURE(wagner);
  const solver::TestCell trough;
  solver::Case c = cell(kGap, 10, 0, 0.3);
  // Part of the loss at the anode of gauze.
  c.cathode.resistance.value = 0.75 * wagner * trough.near_gap / 10;
  c.anodes[0].polarization.resistance.value =
      0.25 * wagner * trough.near_gap / 10;
  const double ratio = solver::mass_ratio(c, trough);
  tests::record({"cell of two cathodes", "(K + W) / (1 + W), by hand",
                 fmt::format("mass near over far, K = 5, W = {:g}", wagner),
                 (5 + wagner) / (1 + wagner), ratio, 1e-12 * ratio});
  const double field = 100 * (5 - ratio) / (5 + ratio - 2);
  CHECK(field == Approx(100 * wagner / (2 + wagner)).margin(1e-9));
}

TEST_CASE("masses in a cell of two cathodes with a Tafel law", "[fit][exact]") {
  const solver::TestCell trough;
  solver::Case c = cell(kGap, 10, 0, 0);
  c.cathode.law = solver::Law::tafel;
  c.cathode.exchange_current_density.value = 5;
  c.cathode.tafel_slope.value = 0.12;
  const double ratio = solver::mass_ratio(c, trough);
  // b ln M + near i_near / kappa = far i_far / kappa
  const double sum = trough.current / trough.area;
  const double far = sum / (1 + ratio), near = sum - far;
  CHECK(0.12 / std::log(10) * std::log(ratio) + trough.near_gap * near / 10 ==
        Approx(trough.far_gap * far / 10).epsilon(1e-10));
}

TEST_CASE("readings that cannot tell are said to be such", "[fit]") {
  const solver::Case c = cell(kGap, 20, 1e-4, 0.1);
  const double volts = cell_voltage(1, kGap, 20, 1e-4, 0.1);
  SECTION("one voltage tells one of three") {
    const solver::Fit f = solver::fit(c, {{c, {voltage_at(1, volts)}}});
    REQUIRE(f.untold.size() == 2);
    // The one that is guessed worst is fitted, the others left.
    CHECK(!value_of(f, "solution.conductivity").given_up);
    CHECK(value_of(f, "cathode.polarization_resistance").given_up);
    CHECK(value_of(f, "cathode.polarization_offset").given_up);
    CHECK(value_of(f, "solution.conductivity").value ==
          Approx(20).epsilon(1e-6));
  }
  SECTION("currents tell the offset, but not slope from conductivity") {
    // As much as the solution's own.
    const double kAlike = kGap / 20;
    const solver::Case alike = cell(kGap, 20, kAlike, 0);
    std::vector<Reading> readings;
    for (const double current : {0.2, 0.5, 1.0})
      readings.push_back(
          voltage_at(current, cell_voltage(current, kGap, 20, kAlike, 0.1)));
    const solver::Fit f = solver::fit(alike, {{alike, readings}});
    REQUIRE(f.untold.size() == 1);
    CHECK(std::find(f.untold[0].keys.begin(), f.untold[0].keys.end(),
                    "solution.conductivity") != f.untold[0].keys.end());
    CHECK(std::find(f.untold[0].keys.begin(), f.untold[0].keys.end(),
                    "cathode.polarization_resistance") !=
          f.untold[0].keys.end());
    // More of one, more of the other: both count by their logarithms.
    CHECK(f.untold[0].parts[0] * f.untold[0].parts[1] > 0);
    CHECK(value_of(f, "cathode.polarization_offset").value ==
          Approx(0.1).epsilon(1e-5));
    CHECK(value_of(f, "cathode.polarization_resistance").given_up);
  }
  SECTION("a mass at a set current tells none of them") {
    const solver::Fit f = solver::fit(c, {{c, {reading(Of::mass, 1, 0.1)}}});
    CHECK(f.untold.size() == 3);
    for (const solver::FittedValue& v : f.values) CHECK(v.given_up);
    CHECK(f.fitted.solution.conductivity == c.solution.conductivity);
  }
}

TEST_CASE("a wrong reading is told and what it does", "[fit]") {
  const solver::Case c = cell(kGap, 12, 3e-4, 0.15);
  std::vector<Reading> here, there;
  for (const double current : {0.2, 0.4, 0.6, 0.8, 1.0}) {
    here.push_back(
        voltage_at(current, cell_voltage(current, kGap, 12, 3e-4, 0.15)));
    there.push_back(
        voltage_at(current, cell_voltage(current, 0.03, 12, 3e-4, 0.15)));
  }
  here[4].value += 0.05;
  const solver::Case other = cell(0.03, 12, 3e-4, 0.15);
  const solver::Fit f = solver::fit(c, {{c, here}, {other, there}});
  for (std::size_t k = 0; k < f.readings.size(); ++k)
    CHECK(f.readings[k].outlier == (k == 4));
  CHECK(f.widened > 1);
  // Linear in 1/kappa, slope and offset: without it, to first order, the truth
  // comes back.
  REQUIRE(!f.readings[4].moves.empty());
  const auto& moved = value_of(f, f.readings[4].moves);
  const double truth =
      f.readings[4].moves == "solution.conductivity"             ? 12
      : f.readings[4].moves == "cathode.polarization_resistance" ? 3e-4
                                                                 : 0.15;
  CHECK(std::abs(f.readings[4].moved_to - truth) <
        0.5 * std::abs(moved.value - truth));
  here[4].value -= 0.05;
  const solver::Fit sound = solver::fit(c, {{c, here}, {other, there}});
  CHECK(sound.widened == 1);
  for (const solver::FittedReading& r : sound.readings) CHECK(!r.outlier);
}
