// Where current density is a share of the limiting one: between two plates it
// is one number, I / A, and on a token every point is one of a span or none.
#include "bench_cases.hpp"
#include "solver/anode_health.hpp"
#include "solver/simulate.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace thinspot;
using solver::AnodeState;
using solver::Burn;
using solver::Quantity;

namespace {

constexpr double kDensity = 300;  // [A/m2]

/// Two plates, full height, at that current density.
solver::Case plates() {
  solver::Case c = tests::channel(0.05, 0.03, 20, 2e-4, 0, 1);
  c.supply.voltage.reset();
  c.supply.current_density = Quantity{kDensity, 0};
  return c;
}

}  // namespace

TEST_CASE("between two plates the share is one number", "[exact]") {
  struct Row {
    double share;
    std::vector<Burn> kinds;
  };
  const Row row =
      GENERATE(Row{0.39, {}}, Row{0.41, {Burn::dull}}, Row{0.69, {Burn::dull}},
               Row{0.71, {Burn::burnt}}, Row{0.99, {Burn::burnt}},
               Row{1.01, {Burn::powdery}}, Row{3, {Burn::powdery}});
  CAPTURE(row.share);
  solver::Case c = plates();
  c.solution.limiting_current_density =
      Quantity{kDensity / row.share, 0.2 * kDensity};
  const solver::Result r = solver::simulate(c);
  const solver::BurnMap& map = r.appraisal.burn;
  REQUIRE(map.limit);
  CHECK_FALSE(map.given);
  REQUIRE(map.spans.size() == row.kinds.size());
  CHECK(r.steps[0].burning ==
        (!row.kinds.empty() && row.kinds[0] != Burn::dull));
  // The field is linear: what is left is rounding.
  REQUIRE(map.share.size() == 1);
  for (std::size_t k = 0; k < r.parts[0].surface.size(); ++k)
    if (r.parts[0].surface[k].wetted)
      CHECK(map.share[0](static_cast<Eigen::Index>(k)) ==
            Approx(row.share).epsilon(1e-8));
  if (row.kinds.empty()) return;
  const solver::BurnSpan& span = map.spans[0];
  CHECK(span.kind == row.kinds[0]);
  CHECK(span.peak == Approx(kDensity).epsilon(1e-8));
  CHECK(span.share == Approx(row.share).epsilon(1e-8));
  // All of the one side that meets the liquid.
  CHECK(span.to - span.from == Approx(0.03).epsilon(1e-8));
  CHECK(span.face == "right");
}

TEST_CASE("what the case says burns goes before the limit", "[exact]") {
  solver::Case c = plates();
  c.solution.limiting_current_density = Quantity{10, 0};
  c.target.burning_current_density = 1.1 * kDensity;
  CHECK(solver::simulate(c).appraisal.burn.spans.empty());
  c.target.burning_current_density = 0.9 * kDensity;
  const auto& map = solver::simulate(c).appraisal.burn;
  CHECK(map.given);
  REQUIRE(map.spans.size() == 1);
  CHECK(map.spans[0].kind == Burn::burnt);
  // Where nothing is known nothing is told.
  c = plates();
  CHECK_FALSE(solver::simulate(c).appraisal.burn.limit);
}

TEST_CASE("every point of a token lies on a span or below", "[exact]") {
  solver::Case c = tests::token();
  c.solution.limiting_current_density = Quantity{600, 0};
  c.steps.push_back(c.steps.front());
  c.steps.back().motion.flip = true;
  const solver::Result r = solver::simulate(c);
  const solver::BurnMap& map = r.appraisal.burn;
  // The rims of both steps, and not the faces.
  REQUIRE(map.spans.size() >= 2);
  std::size_t on = 0, off = 0;
  for (std::size_t k = 0; k < r.parts[0].surface.size(); ++k) {
    const solver::SurfacePoint& p = r.parts[0].surface[k];
    const double share = map.share[0](static_cast<Eigen::Index>(k));
    // Between its samples, an eighth of an edge apart, a span's end is put by
    // a straight line.
    if (std::abs(share - solver::kDullShare) < 0.01 * solver::kDullShare)
      continue;
    const bool held = std::any_of(map.spans.begin(), map.spans.end(),
                                  [&](const solver::BurnSpan& s) {
                                    return solver::holds(s, p.loop, p.arc);
                                  });
    CAPTURE(p.arc, share);
    CHECK(held == (share > solver::kDullShare));
    ++(held ? on : off);
  }
  CHECK(on > 5);
  CHECK(off > 5);
  double most = 0;
  for (const solver::BurnSpan& s : map.spans) most = std::max(most, s.peak);
  CHECK(most == Approx(std::max(r.steps[0].max_current_density,
                                r.steps[1].max_current_density))
                    .epsilon(1e-9));
}

TEST_CASE("a span may run over the lowest point", "[exact]") {
  solver::BurnSpan s;
  s.around = 10;
  s.from = 9;
  s.to = 11;
  for (const double arc : {9., 9.5, 0., 0.9}) CHECK(solver::holds(s, 0, arc));
  for (const double arc : {1.1, 5., 8.9}) CHECK_FALSE(solver::holds(s, 0, arc));
  CHECK_FALSE(solver::holds(s, 1, 9.5));
}

TEST_CASE("an anode against its limit", "[exact]") {
  struct Row {
    double limit, band;  // over the density there is
    AnodeState state;
  };
  const Row row = GENERATE(Row{2, 0.5, AnodeState::sound},
                           Row{1.2, 0.3, AnodeState::may_passivate},
                           Row{0.9, 0.3, AnodeState::may_passivate},
                           Row{0.8, 0.1, AnodeState::likely_passive});
  CAPTURE(row.limit);
  solver::Case c = plates();
  c.anodes[0].limit = Quantity{row.limit * kDensity, row.band * kDensity};
  const solver::Result r = solver::simulate(c);
  const solver::Anodes& anodes = r.appraisal.anodes;
  REQUIRE(anodes.each.size() == 1);
  CHECK(anodes.each[0].state == row.state);
  CHECK(anodes.each[0].limit->source == "given");
  // Both plates are alike.
  CHECK(anodes.to_cathode == Approx(1).epsilon(1e-9));
  // Without its own: from memory for copper, none for what does not dissolve.
  c.anodes[0].limit.reset();
  CHECK(solver::anode_limit(c, c.anodes[0])->source == "from memory");
  c.solution.anode_limit = Quantity{50, 10};
  CHECK(solver::anode_limit(c, c.anodes[0])->density.value == 50);
  c.anodes[0].soluble = false;
  CHECK_FALSE(solver::anode_limit(c, c.anodes[0]));
}

// A thin strip along a uniform field, through whose surface hardly any current
// goes, bends the field by its thickness alone: along it the potential differs
// by field times length, and around its ends by a few thicknesses more.
TEST_CASE("a strip that hangs along the field spans its length", "[bound]") {
  const double length = 0.02, thick = 2e-4;
  solver::Case c = plates();
  c.section.solids.push_back(
      tests::solid(mesh::Role::floating, "strip", "plate",
                   {{"width", length}, {"height", thick}}, {0.03, 0.015}));
  c.floating.push_back({"strip", 2, "copper", {1e6, 0}});
  const solver::Result r = solver::simulate(c);
  REQUIRE(r.appraisal.anodes.bipolar.size() == 1);
  const double field = kDensity / 20;
  const double span = r.appraisal.anodes.bipolar[0].span;
  CHECK(span > field * length);
  CHECK(span < field * (length + 4 * thick));
  CHECK(r.appraisal.anodes.bipolar[0].dissolves);
}
