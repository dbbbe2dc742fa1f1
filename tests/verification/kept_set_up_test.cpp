// Many set-ups of one geometry answered on meshes that are made once.
#include "solver/kept_set_up.hpp"
#include "bench_cases.hpp"
#include "mesh/errors.hpp"
#include "table.hpp"
#include "tests/solids.hpp"

#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <cmath>
#include <random>
#include <vector>

using namespace thinspot;
using solver::Case;
using solver::KeptSetUp;
using solver::SetUpFigures;

namespace {

/// A current [A] and a slope [ohm m2].
struct Setting {
  double current, slope;
};

constexpr Setting kLow{0.07, 0.3e-4}, kHigh{1.0, 10e-4};

Case at(Case c, const Setting& s) {
  c.supply.current = solver::Quantity{s.current, 0};
  c.cathode.resistance.value = s.slope;
  return c;
}

std::vector<Case> corners_of(const Case& c) {
  return {at(c, kLow), at(c, {kLow.current, kHigh.slope}),
          at(c, {kHigh.current, kLow.slope}), at(c, kHigh)};
}

Setting anywhere(std::mt19937& lot) {
  std::uniform_real_distribution<double> share(0, 1);
  const double current = std::lerp(kLow.current, kHigh.current, share(lot));
  return {current, kLow.slope * std::pow(kHigh.slope / kLow.slope, share(lot))};
}

/// Turned over half way.
Case turned_over() {
  Case c = tests::token();
  c.steps.push_back(c.steps.front());
  c.steps.back().motion.flip = true;
  return c;
}

/// A bracket in place of the token: its inside corner hardly gets anything.
Case bracket() {
  Case c = tests::token();
  c.section.solids[0] = tests::bracket(0.001, c.section.solids[0].at);
  c.depth = 0.02;
  return c;
}

struct Count {
  int within = 0, all = 0;
};

/// The reference is a mesh for a twentieth of the tolerance, whose own error is
/// a twentieth of what is looked at.
void count_within(const Case& c, int points, Count& count) {
  std::mt19937 lot(7);
  const KeptSetUp kept(corners_of(c));
  REQUIRE(kept.works());
  for (int k = 0; k < points; ++k) {
    Case point = at(c, anywhere(lot));
    const SetUpFigures found = kept.answer(point, false);
    point.accuracy.tolerance /= 20;
    const SetUpFigures exact = solver::solved_alone(point, false);
    const auto compare = [&](double a, double b, double error) {
      ++count.all;
      count.within += std::abs(a - b) <= error;
    };
    compare(found.thickness.min, exact.thickness.min,
            found.mesh_errors.thickness.min);
    compare(found.thickness.max, exact.thickness.max,
            found.mesh_errors.thickness.max);
    compare(found.least_judged, exact.least_judged,
            found.mesh_errors.least_judged);
    compare(found.voltage, exact.voltage, found.mesh_errors.voltage);
  }
}

}  // namespace

TEST_CASE("mesh errors of set-ups that share a mesh hold in 95 of 100") {
  Count count;
  count_within(tests::token(), 25, count);
  count_within(turned_over(), 15, count);
  count_within(bracket(), 25, count);
  INFO(count.within << " of " << count.all << " figures");
  CHECK(count.all == 260);
  CHECK(count.within >= 0.95 * count.all);
}

// A linear potential lies in the space of P2, so that nothing of a mesh made
// for other quantities is left in the answer but rounding.
TEST_CASE("a slab between plates at other quantities than its mesh's",
          "[table]") {
  const double gap = 0.05, voltage = 1.5;
  const auto cell = [&](double conductivity, double slope) {
    return tests::channel(gap, 0.02, conductivity, slope, 1e-4, voltage);
  };
  const KeptSetUp kept(
      {cell(1, 1e-5), cell(100, 1e-5), cell(1, 1e-3), cell(100, 1e-3)});
  for (const double conductivity : {1.0, 7.0, 100.0})
    for (const double slope : {1e-5, 2.6e-4, 1e-3}) {
      const double exact = voltage / (gap / conductivity + slope + 1e-4);
      const SetUpFigures f = kept.answer(cell(conductivity, slope), false);
      tests::record({"1-D cell",
                     "series connection",
                     fmt::format("i on a shared mesh, {:g} S/m, {:g} ohm m2 "
                                 "[A/m2]",
                                 conductivity, slope),
                     exact,
                     f.current_density.mean,
                     1e-9 * exact,
                     {tests::Order::Kind::exact}});
    }
}

TEST_CASE("a corner alone is the set-up by itself") {
  const Case c = at(tests::token(), kHigh);
  const SetUpFigures kept = KeptSetUp({c}).answer(c, false),
                     alone = solver::solved_alone(c, false);
  // The search for the working point begins elsewhere, and ends at 1e-6 of
  // every resistance.
  const auto same = [](double value) { return Approx(value).epsilon(1e-6); };
  CHECK(kept.thickness.min == same(alone.thickness.min));
  CHECK(kept.thickness.max == same(alone.thickness.max));
  CHECK(kept.voltage == same(alone.voltage));
  CHECK(kept.mass == same(alone.mass));
  CHECK(kept.mesh_errors.thickness.min ==
        same(alone.mesh_errors.thickness.min));
  CHECK(kept.mesh_errors.voltage == same(alone.mesh_errors.voltage));
  CHECK(kept.limited_by == alone.limited_by);
}

TEST_CASE("bands on a shared mesh are those of the set-up by itself") {
  Case c = tests::token();
  c.solution.conductivity.plus_minus = 0.1 * c.solution.conductivity.value;
  const Case point = at(c, {0.33, 2.6e-4});
  const SetUpFigures kept = KeptSetUp(corners_of(c)).answer(point, true),
                     alone = solver::solved_alone(point, true);
  REQUIRE(kept.bands);
  REQUIRE(alone.bands);
  // Both ends move by what the meshes differ in, and by no more than either
  // says of itself.
  const double thickness =
      kept.mesh_errors.least_judged + alone.mesh_errors.least_judged;
  const double voltage = kept.mesh_errors.voltage + alone.mesh_errors.voltage;
  CHECK(alone.bands->least_judged.high > alone.bands->least_judged.low);
  CHECK(std::abs(kept.bands->least_judged.low - alone.bands->least_judged.low) <
        2 * thickness);
  CHECK(std::abs(kept.bands->least_judged.high -
                 alone.bands->least_judged.high) < 2 * thickness);
  CHECK(std::abs(kept.bands->voltage.low - alone.bands->voltage.low) <
        2 * voltage);
}

TEST_CASE("steps that shared their currents come apart where a set-up asks") {
  // Solved alike in both steps; answered with half the current in the second.
  Case alike = tests::token();
  alike.steps.push_back(alike.steps.front());
  Case apart = alike;
  apart.steps.back().supply = apart.supply;
  apart.steps.back().supply->current =
      solver::Quantity{0.5 * apart.supply.current->value, 0};
  const SetUpFigures kept = KeptSetUp({alike}).answer(apart, false);
  const SetUpFigures alone = solver::solved_alone(apart, false);
  CHECK(kept.mass == Approx(alone.mass).epsilon(1e-6));
  CHECK(std::abs(kept.thickness.min - alone.thickness.min) <
        kept.mesh_errors.thickness.min + alone.mesh_errors.thickness.min);
}

TEST_CASE("corners that do not work are left out") {
  Case dead = tests::token();
  dead.supply.current.reset();
  dead.supply.voltage = solver::Quantity{0.01, 0};
  dead.cathode.offset = solver::Quantity{0.5, 0};
  Case alive = dead;
  alive.supply.voltage = solver::Quantity{1.0, 0};
  CHECK_FALSE(KeptSetUp({dead}).works());
  const KeptSetUp kept({dead, alive});
  REQUIRE(kept.works());
  CHECK(kept.answer(alive, false).voltage == Approx(1.0));
  CHECK_THROWS_AS(kept.answer(dead, false), CaseError);
}
