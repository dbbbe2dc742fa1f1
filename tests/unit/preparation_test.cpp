#include "solver/preparation.hpp"

#include "io/library_metals_to_plate.hpp"
#include "io/preparation_words.hpp"
#include "solver/layers.hpp"
#include "tests/verification/bench_cases.hpp"

#include <catch2/catch.hpp>

using namespace thinspot;
using Catch::Matchers::Contains;
using solver::Preparation;
using solver::Verdict;

namespace {

solver::Case plated(const std::string& part, const std::string& metal,
                    const std::string& name) {
  solver::Case c = tests::token();
  c.base_metals = io::base_metals();
  c.part_metal = part;
  c.solution.metal.name = metal;
  c.solution.name = name;
  return c;
}

Preparation prepared(const std::string& part, const std::string& metal,
                     const std::string& name) {
  const auto p = solver::prepare(plated(part, metal, name));
  REQUIRE(p);
  return *p;
}

Verdict verdict(const std::string& part, const std::string& metal,
                const std::string& name) {
  const Preparation p = prepared(part, metal, name);
  CAPTURE(part, metal, name);
  REQUIRE(p.verdict);
  return *p.verdict;
}

/// Of the last of several layers, the first on `part`.
Preparation on_top(const std::string& part,
                   const std::vector<std::array<std::string, 2>>& layers) {
  std::vector<solver::Case> cases;
  for (const auto& [metal, name] : layers)
    cases.push_back(plated(part, metal, name));
  const auto p = solver::prepare(solver::as_layers(cases).back());
  REQUIRE(p);
  return *p;
}

}  // namespace

TEST_CASE("the kind of a solution follows from metal and name") {
  const solver::BaseMetals& all = *io::base_metals();
  const auto kind = [&](const char* metal, const char* name) {
    solver::Solution s;
    s.metal.name = metal;
    s.name = name;
    const solver::Coating* found = solver::kind_of_solution(all, s);
    return found ? found->name : "";
  };
  CHECK(kind("copper", "copper solution") == "acid copper");
  CHECK(kind("copper", "alkaline non-cyanide copper") == "alkaline copper");
  CHECK(kind("copper", "pyrophosphate copper") == "alkaline copper");
  CHECK(kind("nickel", "Watts nickel") == "nickel");
  CHECK(kind("nickel", "Wood's nickel strike") == "nickel strike");
  CHECK(kind("zinc", "alkaline zinc") == "alkaline zinc");
  CHECK(kind("tin(IV)", "stannate") == "alkaline tin");
  CHECK(kind("copper(I)", "copper") == "cyanide copper");
  CHECK(kind("cobalt", "cobalt").empty());
}

// The verdicts of the practices that physics and standards agree on: ASTM B281
// for brass, B183 for steel, B252 for zinc, B254 for stainless steel.
TEST_CASE("what holds on what") {
  CHECK(verdict("brass", "copper", "acid copper") == Verdict::holds);
  CHECK(verdict("brass", "nickel", "Watts nickel") == Verdict::holds);
  CHECK(verdict("mild steel", "nickel", "Watts nickel") == Verdict::holds);
  CHECK(verdict("mild steel", "copper", "acid copper") ==
        Verdict::needs_strike);
  CHECK(verdict("mild steel", "copper", "alkaline copper") == Verdict::holds);
  CHECK(verdict("pot metal", "nickel", "Watts nickel") ==
        Verdict::needs_strike);
  CHECK(verdict("pot metal", "copper", "acid copper") == Verdict::needs_strike);
  CHECK(verdict("pot metal", "copper", "alkaline copper") == Verdict::holds);
  CHECK(verdict("stainless", "nickel", "Watts nickel") ==
        Verdict::needs_strike);
  CHECK(verdict("stainless", "nickel", "Wood's nickel strike") ==
        Verdict::holds);
  CHECK(verdict("aluminium", "nickel", "Watts nickel") ==
        Verdict::needs_strike);
  CHECK(verdict("chrome", "nickel", "Watts nickel") == Verdict::will_not_hold);
  CHECK(verdict("cadmium", "nickel", "Watts") == Verdict::do_not_plate);
  CHECK(verdict("spring steel", "zinc", "acid zinc") == Verdict::do_not_plate);
  CHECK(verdict("brass", "copper(I)", "copper") == Verdict::do_not_plate);
  CHECK_FALSE(prepared("brass", "cobalt", "cobalt").verdict);
}

TEST_CASE("a strike said with the metal counts, the right one alone") {
  CHECK(verdict("steel, nickel strike", "copper", "acid copper") ==
        Verdict::holds);
  CHECK(verdict("steel with copper strike", "copper", "acid copper") ==
        Verdict::holds);
  CHECK(verdict("zamak, copper strike", "nickel", "Watts") == Verdict::holds);
  CHECK(verdict("zamak, nickel strike", "nickel", "Watts") ==
        Verdict::needs_strike);
  CHECK(verdict("aluminium, zincate", "copper", "acid copper") ==
        Verdict::holds);
  CHECK(verdict("stainless, nickel", "copper", "acid copper") ==
        Verdict::needs_strike);
}

TEST_CASE("layers: what lies below decides") {
  const std::array<std::string, 2> copper{"copper", "acid copper"},
      alkaline{"copper", "alkaline copper"}, nickel{"nickel", "Watts nickel"},
      strike{"nickel", "Wood's nickel strike"};
  const Preparation brass = on_top("brass", {copper, nickel});
  CHECK(brass.verdict == Verdict::holds);
  CHECK(brass.onto == "fresh acid copper");
  CHECK(brass.base == "brass");
  CHECK(on_top("steel", {nickel, copper}).verdict == Verdict::holds);
  // Acid copper does not hold on steel, nor then does what is on it; but that
  // is said of the copper.
  CHECK(on_top("zamak", {alkaline, nickel}).verdict == Verdict::holds);
  CHECK(on_top("zamak", {copper, nickel}).verdict == Verdict::needs_strike);
  CHECK(on_top("zamak", {nickel, copper}).verdict == Verdict::needs_strike);
  CHECK(on_top("304", {strike, nickel}).verdict == Verdict::holds);
  CHECK(on_top("304", {strike, nickel, copper}).verdict == Verdict::holds);
  CHECK(on_top("304", {nickel, copper}).verdict == Verdict::needs_strike);
  CHECK(on_top("steel", {nickel, {"tin", "acid tin"}, copper}).verdict ==
        Verdict::needs_strike);
}

TEST_CASE("handling between steps stops the current, and nickel minds") {
  solver::Case c = plated("brass", "nickel", "Watts nickel");
  c.steps.assign(4, {{600, 0}});
  c.steps[1].motion.flip = true;
  c.steps[2].motion.flip = true;
  c.steps[3].motion = {true, 1.5};
  const auto p = solver::prepare(c);
  REQUIRE(p);
  REQUIRE(p->interruptions.size() == 2);
  CHECK(p->interruptions[0].after == 1);
  CHECK(p->interruptions[1].after == 3);
  CHECK(p->reactivate);
  const auto words = io::words_for(*p);
  REQUIRE(words.interruptions.size() == 1);
  CHECK_THAT(words.interruptions[0],
             Contains("1 and 2 (the part is flipped)") &&
                 Contains("3 and 4 (the part is turned)") && Contains("peel"));
  // Copper goes on.
  c.solution.metal.name = "copper";
  c.solution.name = "acid copper";
  const auto copper = solver::prepare(c);
  CHECK_FALSE(copper->reactivate);
  CHECK_THAT(io::words_for(*copper).interruptions[0],
             Contains("as long as it stays wet"));
  // Another clip stops it too.
  c.steps.assign(2, {{600, 0}});
  c.steps[0].clips = {{"left"}};
  c.steps[1].clips = {{"right"}};
  CHECK(solver::interruptions_in(c).size() == 1);
}

TEST_CASE("turning in positions is handling within a step") {
  solver::Case c = plated("brass", "nickel", "Watts nickel");
  c.steps.assign(2, {{600, 0}});
  c.steps[0].turning = solver::Turning{4, 0, 0};
  c.steps[1].turning = solver::Turning{4, 60, 0};
  const auto stops = solver::interruptions_in(c);
  REQUIRE(stops.size() == 2);
  CHECK(stops[0].after == 1);
  CHECK(stops[0].times == 3);
  CHECK(stops[1].times == 9);  // ten minutes, one at each
  CHECK_THAT(io::words_for(*solver::prepare(c)).interruptions.front(),
             Contains("during step 1 (turned from one position to the next, 3 "
                      "times), 2 (") &&
                 Contains("unless the lead stays on") && Contains("peel"));
  // Without a stop the current stays on.
  c.steps.assign(1, {{600, 0}});
  c.steps[0].turning = solver::Turning{0, 0, 0.1};
  CHECK(solver::interruptions_in(c).empty());
}

TEST_CASE("a metal that is not said, or not known, is no error") {
  const Preparation none = prepared("", "copper", "acid copper");
  CHECK_FALSE(none.verdict);
  REQUIRE(none.identify);
  CHECK(none.weights.size() == io::base_metals()->metals.size());
  CHECK_THAT(io::words_for(none).verdict, Contains("is not said"));
  const Preparation odd = prepared("unobtainium", "copper", "acid copper");
  CHECK_THAT(io::words_for(odd).verdict, Contains("\"unobtainium\". "));
  CHECK_THAT(io::words_for(prepared("bras", "copper", "acid copper")).verdict,
             Contains("is \"brass\" meant?"));
  CHECK(io::words_for(odd).steps.empty());
  solver::Case nothing = plated("brass", "copper", "acid copper");
  nothing.base_metals = nullptr;
  CHECK_FALSE(solver::prepare(nothing));
}

TEST_CASE("the verdict is said first and plainly") {
  const auto words = [](const char* part) {
    return io::words_for(prepared(part, "copper", "acid copper"));
  };
  CHECK_THAT(words("stainless").verdict,
             Contains("will not hold") && Contains("First nickel strike"));
  CHECK_THAT(words("cadmium").verdict, Catch::StartsWith("Do not plate"));
  CHECK(words("cadmium").steps.empty());
  CHECK_THAT(words("brass").verdict, Catch::StartsWith("Acid copper holds"));
  CHECK_THAT(words("brass").steps.back(), Contains("wet into the solution"));
  CHECK_THAT(words("brass").steps.front(), Catch::StartsWith("1. "));
}
