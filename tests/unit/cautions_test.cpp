// Every caution is called for by its cause, and by nothing else; and the page
// on cautions lists them as the program says them.
#include "solver/cautions.hpp"

#include "io/library_metals_to_plate.hpp"
#include "solver/caution_facts.hpp"
#include "tests/scratch.hpp"
#include "tests/verification/bench_cases.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <functional>
#include <set>

using namespace thinspot;
using solver::Case;

namespace {

using Ids = std::set<std::string>;

/// A set-up that calls for nothing but what is always said: a plate in a
/// solution of iron sulfate.
Case plain() {
  Case c = tests::token();
  c.base_metals = io::base_metals();
  for (mesh::Solid& s : c.section.solids)
    if (s.role == mesh::Role::part) s.shape = "plate";
  c.solution.metal.name = "iron";
  c.solution.name = "iron sulfate";
  c.solution.efficiency.value = 1;
  for (solver::Anode& a : c.anodes) {
    a.metal = "iron";
    a.name = "sheet";
  }
  c.part_metal = "brass";
  return c;
}

Ids ids_of(const Case& c) {
  Ids ids;
  for (const std::string& text : solver::cautions_for(c)) {
    const solver::CautionRule* rule = solver::caution_of(text);
    REQUIRE(rule);
    CHECK(ids.insert(rule->id).second);
  }
  return ids;
}

Ids always() {
  Ids ids;
  for (const solver::CautionRule& rule : solver::caution_rules())
    if (rule.when == "always") ids.insert(rule.id);
  return ids;
}

struct Change {
  std::function<void(Case&)> make;
  Ids brings;
};

std::function<void(Case&)> holds(const std::string& substance) {
  return [=](Case& c) { c.solution.contains.push_back(substance); };
}
std::function<void(Case&)> called(const std::string& name) {
  return [=](Case& c) { c.solution.name = name; };
}
std::function<void(Case&)> plates(const std::string& metal) {
  return [=](Case& c) { c.solution.metal.name = metal; };
}
std::function<void(Case&)> anode(const std::string& metal) {
  return [=](Case& c) { c.anodes[0].metal = metal; };
}
std::function<void(Case&)> part(const std::string& metal) {
  return [=](Case& c) { c.part_metal = metal; };
}
std::function<void(Case&)> shaped(const std::string& shape) {
  return [=](Case& c) {
    for (mesh::Solid& s : c.section.solids)
      if (s.role == mesh::Role::part) s.shape = shape;
  };
}
std::function<void(Case&)> inert(std::function<void(Case&)> more) {
  return [=](Case& c) {
    c.anodes[0].soluble = false;
    more(c);
  };
}

const std::vector<Change>& changes() {
  static const std::vector<Change> list{
      {called("iron cyanide"), {"cyanide", "caustic"}},
      {called("non-cyanide iron sulfate"), {}},
      {plates("silver"), {"cyanide"}},
      {plates("gold(III)"), {"cyanide"}},
      {holds("chromate"), {"chromium(VI)"}},
      {plates("chromium(VI)"), {"chromium(VI)"}},
      {plates("chromium(III)"), {}},
      {anode("stainless steel"), {"stainless anode"}},
      {part("old cadmium plate"), {"poisonous part"}},
      {part("chrome"), {"poisonous part"}},
      {plates("lead"), {"poisonous metal"}},
      {holds("fluoride"), {"fluoride"}},
      {inert(holds("chloride")), {"chlorine", "oxygen"}},
      {holds("chloride"), {}},
      {inert(called("my own")), {"chlorine unless", "oxygen"}},
      {inert([](Case&) {}), {"oxygen"}},
      {part("zamak"), {"acid eats part"}},
      {[](Case& c) {
         part("zamak")(c);
         called("alkaline iron sulfate")(c);
       },
       {"caustic eats part", "caustic"}},
      {part("spring steel"), {"embrittlement"}},
      {part("mild steel"), {}},
      {[](Case& c) { c.solution.efficiency.value = 0.9; }, {"hydrogen"}},
      {holds("peroxide"), {"peroxide"}},
      {called("iron acetate"), {"peroxide"}},
      {holds("ammonium"), {"ammonia"}},
      {[](Case& c) { c.supply.voltage_limit = 24; }, {}},
      {[](Case& c) { c.supply.voltage_limit = 30; }, {"voltage"}},
      {[](Case& c) {
         c.steps[0].supply = c.supply;
         c.steps[0].supply->voltage_limit = 48;
       },
       {"voltage"}},
      {[](Case& c) {
         c.supply.adapter = solver::Adapter{9, 1.0};
       },
       {"adapter"}},
      {[](Case& c) {
         c.supply.adapter = solver::Adapter{48, {}};
       },
       {"adapter", "voltage"}},
      {plates("nickel"), {"nickel salts", "nickel finish"}},
      {anode("nickel"), {"nickel salts"}},
      {plates("copper"), {"copper salts"}},
      {plates("zinc"), {"zinc salts"}},
      {plates("tin"), {"tin salts"}},
      {plates("tin(IV)"), {"tin salts", "caustic"}},
      {holds("alkali"), {"caustic"}},
      {[](Case& c) { c.solution.temperature = 330; }, {"hot"}},
      {[](Case& c) { c.steps[0].temperature = 330; }, {"hot"}},
      {anode("lead"), {"dissolving anode"}},
      {shaped("coin"), {"coins"}},
      {shaped("tube"), {"closed hollows"}},
  };
  return list;
}

}  // namespace

TEST_CASE("a plain set-up is told what is always told") {
  CHECK(ids_of(plain()) == always());
}

TEST_CASE("each cause brings its cautions and no other") {
  for (std::size_t k = 0; k < changes().size(); ++k) {
    const Change& change = changes()[k];
    CAPTURE(k, change.brings);
    Case c = plain();
    change.make(c);
    Ids expected = always();
    expected.insert(change.brings.begin(), change.brings.end());
    CHECK(ids_of(c) == expected);
  }
}

TEST_CASE("every caution is called for by some cause") {
  Ids called_for = always();
  for (const Change& change : changes())
    called_for.insert(change.brings.begin(), change.brings.end());
  Ids known;
  for (const solver::CautionRule& rule : solver::caution_rules()) {
    CHECK(known.insert(rule.id).second);
    CHECK_FALSE(rule.basis.empty());
  }
  CHECK(called_for == known);
}

TEST_CASE("the page on cautions lists them as they are said", "[docs]") {
  const std::string page =
      tests::content(THINSPOT_SOURCE_DIR "/docs/cautions.md");
  std::string table;
  for (const solver::CautionRule& rule : solver::caution_rules())
    table += fmt::format("| `{}` | {} | {} | {} |\n", rule.id, rule.when,
                         rule.text, rule.basis);
  CHECK(page.find(table) != std::string::npos);
}
