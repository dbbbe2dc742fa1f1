#include "solver/cell_estimate.hpp"

#include "io/case_file.hpp"
#include "solver/inspect.hpp"
#include "solver/outcome.hpp"
#include "solver/simulate.hpp"
#include "tests/verification/bench_cases.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <filesystem>
#include <numbers>

using namespace thinspot;
using mesh::Role;
using solver::Quantity;
using tests::solid;

namespace {

/// Metal that takes no voltage of its own, a held current: what is left is the
/// liquid's resistance.
solver::Case bare(solver::Case c) {
  c.cathode = {};
  c.cathode.resistance.value = 1e-7;
  for (solver::Anode& a : c.anodes) a.polarization = c.cathode;
  c.supply = {};
  c.supply.current = Quantity{1, 0};
  return c;
}

/// A token in a large tank with sheets of that height on one or both sides.
solver::Case token_with_sheets(double gap, double height, int sides) {
  solver::Case c = tests::token();
  c.section.tank = {mesh::Tank::Shape::box, 0.2, 0.15, 0.15, {}};
  c.section.solids.resize(1);
  c.section.solids[0].at = {0.1, 0.075};
  c.anodes.clear();
  for (int k = 0; k < sides; ++k) {
    const double way = k == 0 ? -1 : 1;
    c.section.solids.push_back(
        solid(Role::anode, "sheet " + std::to_string(k), "plate",
              {{"width", 0.002}, {"height", height}},
              {0.1 + way * (0.0012 + gap + 0.001), 0.075}));
    tests::add_anode(c, static_cast<std::size_t>(k) + 1, 0);
  }
  return c;
}

/// Estimated to solved resistance of the liquid.
double ratio(const solver::Case& c) {
  const solver::Model model = solver::build_model(c);
  const solver::Outcome outcome = solver::evaluate(model, c);
  const double solved =
      outcome.point.terminal_voltage / outcome.point.total_current;
  return solver::inspect(c).cell.ohmic / solved;
}

}  // namespace

TEST_CASE("estimate: exact for a straight channel") {
  const solver::Case c = tests::channel(0.05, 0.04, 20, 1e-4, 2e-5, 1);
  const solver::CellEstimate e = solver::inspect(c).cell;
  // Gap over conductivity and width, in series with both surfaces.
  const double liquid = 0.05 / (20 * 0.04);
  CHECK(e.ohmic == Approx(liquid));
  CHECK(e.by_voltage);
  CHECK(e.current == Approx(1 / (liquid + 1.2e-4 / 0.04)));
}

TEST_CASE("estimate: exact for concentric cylinders") {
  solver::Case c = bare(tests::token());
  c.section.cut = mesh::Cut::plan;
  c.section.tank = {mesh::Tank::Shape::round, 0.1, 0.1, 0, {}};
  c.depth = 0.06;
  c.section.solids = {
      solid(Role::part, "part", "rod", {{"diameter", 0.01}}, {0.05, 0.05}),
      solid(Role::anode, "ring", "tube",
            {{"diameter", 0.064}, {"wall", 0.002}, {"open", 1}}, {0.05, 0.05})};
  // ln(r2/r1)/(2 pi conductivity depth)
  const double exact = std::log(30.0 / 5) / (2 * std::numbers::pi * 20 * 0.06);
  CHECK(solver::inspect(c).cell.ohmic == Approx(exact).epsilon(1e-3));
}

TEST_CASE("estimate: as rough as stated, from near to far, small to large") {
  for (double gap : {0.005, 0.02, 0.06, 0.09})
    for (double height : {0.02, 0.07, 0.14})
      for (int sides : {1, 2}) {
        CAPTURE(gap, height, sides);
        const double r = ratio(bare(token_with_sheets(gap, height, sides)));
        CHECK(r < solver::kRoughness);
        CHECK(r > 1 / solver::kRoughness);
      }
}

TEST_CASE("estimate: a rack, where the near copies shade the far") {
  solver::Case c = bare(token_with_sheets(0.06, 0.12, 2));
  const std::vector<mesh::Solid> sheets(c.section.solids.begin() + 1,
                                        c.section.solids.end());
  c.rack = solver::Rack{{{0.06, 0.04},
                         {0.10, 0.04},
                         {0.14, 0.04},
                         {0.06, 0.10},
                         {0.10, 0.10},
                         {0.14, 0.10}},
                        {}};
  c.section.solids.front().at = c.rack->at.front();
  c.section.solids =
      mesh::copies_on_rack({c.section.solids.front()}, c.rack->at);
  for (solver::Anode& a : c.anodes) a.solid += c.rack->at.size() - 1;
  c.section.solids.insert(c.section.solids.end(), sheets.begin(), sheets.end());
  const double r = ratio(c);
  CHECK(r < solver::kRoughness);
  CHECK(r > 1 / solver::kRoughness);
}

TEST_CASE("estimate: bodies turned about an axis") {
  solver::Case c = bare(tests::token());
  c.section.cut = mesh::Cut::axisymmetric;
  c.section.tank = {mesh::Tank::Shape::box, 0.1, 0.1, 0.1, {}};
  const auto coin =
      solid(Role::part, "part", "coin",
            {{"diameter", 0.03}, {"thickness", 0.0024}, {"edge_radius", 3e-4}},
            {0, 0.04});
  const auto rod = solid(Role::part, "part", "rod",
                         {{"diameter", 0.01}, {"length", 0.06}}, {0, 0.05});
  c.section.solids = {coin,
                      solid(Role::anode, "disc", "plate",
                            {{"width", 0.06}, {"height", 0.002}}, {0, 0.08})};
  const double disc = ratio(c);
  c.section.solids = {
      rod, solid(Role::anode, "ring", "plate",
                 {{"width", 0.002}, {"height", 0.06}}, {0.04, 0.05})};
  const double ring = ratio(c);
  for (double r : {disc, ring}) {
    CHECK(r < solver::kRoughness);
    CHECK(r > 1 / solver::kRoughness);
  }
}

TEST_CASE("estimate: what the meter reads in every shipped case") {
  namespace fs = std::filesystem;
  int count = 0;
  for (const auto& entry :
       fs::directory_iterator(fs::path(THINSPOT_SOURCE_DIR) / "cases")) {
    if (entry.path().extension() != ".toml") continue;
    CAPTURE(entry.path().string());
    ++count;
    const solver::Case c = io::read_case(entry.path()).content;
    const solver::CellEstimate e = solver::inspect(c).cell;
    const solver::Result r = solver::simulate(c);
    const double solved = e.by_voltage ? r.cell.current : r.cell.voltage;
    CAPTURE(solved, e.voltage, e.current);
    CHECK(e.range.low <= solved);
    CHECK(solved <= e.range.high);
    // Beside it: the wetted area is that of a solve.
    if (r.parts.size() == 1)
      CHECK(solver::inspect(c).areas.part ==
            Approx(r.parts.front().area).epsilon(1e-3));
  }
  CHECK(count >= 3);
}
