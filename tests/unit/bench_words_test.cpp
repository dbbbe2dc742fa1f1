// What is said of burns, anodes, thick edges, the usual range, and of where
// unevenness comes from.
#include "io/bench_words.hpp"
#include "io/why_words.hpp"
#include "sample_result.hpp"

#include <catch2/catch.hpp>

using namespace thinspot;
using Catch::Matchers::Contains;
using solver::Burn;

namespace {

solver::BurnSpan span(Burn kind, double peak, const char* where) {
  solver::BurnSpan s;
  s.kind = kind;
  s.to = 0.003;
  s.around = 0.1;
  s.peak = peak;
  s.share = peak / 800;
  s.where = where;
  return s;
}

/// A limit of 8 A/dm2, half of which is not sure.
solver::Result burning(std::vector<solver::BurnSpan> spans) {
  solver::Result r = tests::sample_result();
  r.appraisal.burn.limit = 800;
  r.appraisal.burn.limit_plus_minus = 400;
  r.appraisal.burn.spans = std::move(spans);
  return r;
}

solver::Result with_anode(solver::AnodeState state, double mean) {
  solver::Result r = tests::sample_result();
  r.anodes.resize(1);
  r.anodes[0].name = "sheet";
  r.anodes[0].mean = mean;
  r.anodes[0].max = 2 * mean;
  r.appraisal.anodes.each = {
      {"sheet", state, solver::AnodeLimit{{300, 100}, "given"}}};
  r.appraisal.anodes.to_cathode = 0.5;
  return r;
}

}  // namespace

TEST_CASE("burns are told worst first, as likely and not certain") {
  const auto lines =
      io::burn_words(burning({span(Burn::burnt, 640, "at the tip"),
                              span(Burn::dull, 400, "on the bowl"),
                              span(Burn::dull, 390, "at the rim")}));
  REQUIRE(lines.size() == 2);
  CHECK_THAT(lines[0], Contains("Likely burnt, not certain") &&
                           Contains("at the tip (3 mm), up to 6.4 A/dm²") &&
                           Contains("0.8 of the limiting current density") &&
                           !Contains("low end"));
  CHECK_THAT(lines[1], Contains("dull or rough") &&
                           Contains("on the bowl (3 mm), at the rim (3 mm)") &&
                           Contains("at the low end of that, it would burn"));
  CHECK(io::burn_words(tests::sample_result()).empty());
}

TEST_CASE("a limit that is hardly known rules nothing out") {
  solver::Result r = burning({});
  r.steps[0].max_current_density = 290;  // 0.72 of the low end
  REQUIRE(io::burn_words(r).size() == 1);
  CHECK_THAT(io::burn_words(r)[0], Contains("cannot be ruled out"));
  r.steps[0].max_current_density = 270;
  CHECK(io::burn_words(r).empty());
}

TEST_CASE("anodes are told of where their limit is near") {
  using solver::AnodeState;
  CHECK(io::anode_words(with_anode(AnodeState::sound, 100)).empty());
  const auto near = io::anode_words(with_anode(AnodeState::may_passivate, 250));
  REQUIRE(near.size() == 2);
  CHECK_THAT(near[0], Contains("Anode sheet: 2.5 A/dm² on average") &&
                          Contains("may passivate"));
  CHECK_THAT(near[1], Contains("0.5 of the cathodes'"));
  CHECK_THAT(io::anode_words(with_anode(AnodeState::likely_passive, 500))[0],
             Contains("likely passivates"));
  solver::Result r = tests::sample_result();
  r.appraisal.anodes.bipolar = {{"ring", 0.3, true}, {"pin", 0.02, false}};
  REQUIRE(io::anode_words(r).size() == 1);
  CHECK_THAT(io::anode_words(r)[0], Contains("Along ring") &&
                                        Contains("0.3 V") &&
                                        Contains("dissolves"));
}

TEST_CASE("thick edges and the usual range") {
  solver::Result r = tests::sample_result();
  CHECK(io::edge_words(r).empty());
  CHECK(io::range_words(r).empty());
  r.appraisal.edges = solver::EdgeBuild{50e-6, 62e-6, "nodules", "at the tip"};
  REQUIRE(io::edge_words(r).size() == 1);
  CHECK_THAT(io::edge_words(r)[0], Contains("62 µm, at the tip") &&
                                       Contains("from about 50 µm") &&
                                       Contains("likely grows nodules"));
  r.appraisal.range = solver::InRange{100, 300, "a handbook", 0.62};
  CHECK_THAT(io::range_words(r).at(0),
             Contains("62 % of the surface is between 1 and 3 A/dm²") &&
                 Contains("the usual range") && Contains("not computed"));
  r.appraisal.range->share = 1;
  CHECK_THAT(io::range_words(r).at(0),
             Contains("100 % of the surface") && !Contains("not computed"));
}

TEST_CASE("edges by metal and thickness") {
  solver::Result r = tests::sample_result();  // copper, 28 um at the heaviest
  CHECK_FALSE(solver::edge_build(r));
  r.parts[0].thickness.value.max = 60e-6;
  REQUIRE(solver::edge_build(r));
  CHECK(solver::edge_build(r)->likely == "nodules");
  r.used.solution.metal.name = "tin";
  CHECK(solver::edge_build(r)->from == Approx(15e-6));
  r.used.solution.metal.name = "unobtainium";
  CHECK_FALSE(solver::edge_build(r));
}

TEST_CASE("why is told with its figures") {
  solver::Result r = tests::sample_result();
  CHECK(io::why_words(r).empty());
  solver::Why why;
  why.ideal = 0.5;
  why.actual = 0.3;
  why.relief = 0.4;
  why.half_current = 0.22;
  why.twice_conductivity = 0.25;
  r.appraisal.why = why;
  CHECK_THAT(io::why_words(r),
             Contains("off its mean by 50 % on average") &&
                 Contains("takes 40 % of that away and leaves 30 %") &&
                 Contains("Half the current, for twice as long, would leave "
                          "22 %, a solution that conducts twice as well 25 %"));
  r.appraisal.why->half_current.reset();
  CHECK_THAT(io::why_words(r), Contains("at the same voltage, would leave 25"));
  r.appraisal.why->relief = -0.1;
  CHECK_THAT(io::why_words(r), Contains("with polarization it is 30 %"));
  r.appraisal.why->ideal = 0.001;
  CHECK_THAT(io::why_words(r), Contains("leave the coating even"));
}
