// [solution] by the library's name, by recipe, by its own numbers.
#include "case_text.hpp"

#include "io/solution_words.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>

using namespace thinspot;
using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinRel;

namespace {

constexpr double kRounding = 1e-12;

/// The sound case with another [solution] and no slope of its own.
std::string jar(const std::string& lines) {
  std::string text =
      with(sound_case(),
           "metal = \"copper\"\nconductivity = \"20 S/m +- 3 S/m\"\n"
           "efficiency = 0.98\n",
           lines);
  return with(text,
              "polarization_resistance = \"2.6 ohm cm2\"\n"
              "polarization_at = \"2 A/dm2\"\n",
              "");
}

solver::Case read(const std::string& lines) {
  return read_text(jar(lines)).content;
}

std::string problem(const std::string& lines) {
  return only_problem(jar(lines));
}

const solver::Provenance& source_of(const solver::Case& c,
                                    const std::string& key) {
  const auto& all = c.solution.sources;
  const auto found =
      std::find_if(all.begin(), all.end(),
                   [&](const solver::Provenance& p) { return p.key == key; });
  REQUIRE(found != all.end());
  return *found;
}

bool is_assumed(const solver::Case& c, const std::string& key) {
  return std::any_of(c.assumed.begin(), c.assumed.end(),
                     [&](const solver::Assumption& a) { return a.key == key; });
}

double molar(const solver::Case& c, const std::string& name) {
  for (const solver::Substance& s : c.solution.made_of)
    if (s.name == name) return 1e-3 * s.concentration;
  return 0;
}

bool noted(const solver::Case& c, const std::string& piece) {
  return std::any_of(c.notes.begin(), c.notes.end(), [&](const auto& note) {
    return note.find(piece) != std::string::npos;
  });
}

}  // namespace

TEST_CASE("A solution of the library brings all its numbers", "[solution]") {
  const solver::Case c = read("use = \"acid copper\"\n");
  const solver::Solution& s = c.solution;
  CHECK(s.entry == "acid copper");
  CHECK(s.metal.name == "copper");
  CHECK_THAT(s.conductivity.value, WithinRel(20.0, kRounding));
  CHECK_THAT(s.conductivity.plus_minus, WithinRel(4.0, kRounding));
  CHECK_THAT(s.efficiency.value, WithinRel(0.99, kRounding));
  CHECK_THAT(c.cathode.resistance.value, WithinRel(2.6e-4, kRounding));
  CHECK_THAT(*c.cathode.at, WithinRel(200.0, kRounding));
  REQUIRE(s.usual);
  CHECK_THAT(s.usual->high, WithinRel(300.0, kRounding));
  REQUIRE(s.anode_limit);
  CHECK(s.limiting_current_density);
  // 221.5 g/l of 249.685 g/mol.
  CHECK_THAT(*s.metal_concentration, WithinRel(1e3 * 221.5 / 249.685, 1e-6));
  CHECK_THAT(s.acidity, Contains("strongly acid"));
  for (const char* key :
       {"solution.conductivity", "solution.efficiency", "solution.temperature",
        "cathode.polarization_resistance", "solution.limiting_current_density"})
    CHECK(is_assumed(c, key));
  CHECK_THAT(source_of(c, "conductivity").source, Contains("from memory"));
}

TEST_CASE("Every key overrides the library", "[solution]") {
  const solver::Case c = read(
      "use = \"Watts nickel\"\nconductivity = \"7 S/m +- 1 S/m\"\n"
      "efficiency = \"90 %\"\nlimiting_current_density = \"12 A/dm2\"\n"
      "temperature = \"45 degC\"\nname = \"my nickel\"\n");
  const solver::Solution& s = c.solution;
  CHECK_THAT(s.conductivity.value, WithinRel(7.0, kRounding));
  CHECK(s.efficiency.value == 0.9);
  CHECK_THAT(s.limiting_current_density->value, WithinRel(1200.0, kRounding));
  CHECK_THAT(s.temperature, WithinRel(318.15, kRounding));
  CHECK(s.name == "my nickel");
  CHECK(s.entry == "Watts nickel");
  CHECK(source_of(c, "conductivity").source == "given");
  CHECK_FALSE(is_assumed(c, "solution.conductivity"));
  CHECK_FALSE(is_assumed(c, "solution.efficiency"));
  CHECK_FALSE(is_assumed(c, "solution.temperature"));
  CHECK(is_assumed(c, "cathode.polarization_resistance"));
}

TEST_CASE("Away from its usual temperature an entry conducts otherwise",
          "[solution]") {
  // exp(0.013 x 5) more than 20 S/m, and half widths 20 % and 0.5 % a kelvin.
  const solver::Case c =
      read("use = \"acid copper\"\ntemperature = \"30 degC\"\n");
  const solver::Quantity& k = c.solution.conductivity;
  CHECK_THAT(k.value, WithinRel(20 * std::exp(0.013 * 5), 1e-9));
  CHECK_THAT(k.plus_minus / k.value, WithinRel(std::hypot(0.2, 0.025), 1e-9));
  const solver::Case far =
      read("use = \"acid copper\"\ntemperature = \"60 degC\"\n");
  CHECK(far.solution.conductivity.plus_minus / far.solution.conductivity.value >
        k.plus_minus / k.value);
  CHECK(noted(far, "is used at 18 to 35"));
}

TEST_CASE("Stirring opens the range of the stirred solution", "[solution]") {
  const auto usual = [](const char* stirring) {
    return *read("use = \"acid copper\"\nstirring = \"" +
                 std::string(stirring) + "\"\n")
                .solution.usual;
  };
  CHECK_THAT(usual("gentle").high, WithinRel(300.0, kRounding));
  CHECK_THAT(usual("strong").high, WithinRel(1080.0, kRounding));
}

TEST_CASE("Molarity by hand", "[solution]") {
  // 45 g of 249.685 g/mol = 0.180227 mol; 20 ml of 96 % acid of 1.836 g/cm3 are
  // 35.251 g acid = 0.359411 mol; filled up to 500 ml.
  const solver::Case c = read(
      "made_of = { total = \"500 ml\", \"copper sulfate pentahydrate\" = "
      "\"45 g\", \"sulfuric acid 96 %\" = \"20 ml\" }\n");
  CHECK(c.solution.metal.name == "copper");
  CHECK_THAT(molar(c, "copper sulfate pentahydrate"),
             WithinRel(0.360454, 1e-5));
  CHECK_THAT(molar(c, "sulfuric acid"), WithinRel(0.718822, 1e-4));
  CHECK_THAT(*c.solution.volume, WithinRel(500e-6, kRounding));
  CHECK_THAT(*c.solution.metal_concentration, WithinRel(360.454, 1e-5));
  CHECK_THAT(c.solution.acidity, Contains("strongly acid"));
  CHECK_THAT(source_of(c, "conductivity").sure, Contains("rule of mixtures"));
  CHECK(c.solution.limiting_current_density);
  for (const char* tag : {"acid", "copper"})
    CHECK(std::count(c.solution.contains.begin(), c.solution.contains.end(),
                     tag) == 1);
}

// Densities at 20 degC: 20 % sodium chloride 1.148, 10 % copper sulfate 1.107
// g/cm3 (handbook tables, from memory). A litre of water with the salt that
// makes such a solution; what water swells by follows its mass, to 1 %.
TEST_CASE("Water swells with what is dissolved", "[solution]") {
  const auto volume = [](const std::string& salt) {
    return 1e6 * *read("metal = \"copper\"\nmade_of = { water = \"1 l\", " +
                       salt + " }\n")
                      .solution.volume;
  };
  CHECK_THAT(volume("\"sodium chloride\" = \"249.55 g\""),
             WithinRel(1247.75 / 1.148, 0.01));
  // 173.5 g pentahydrate in a litre: 110.9 g salt of 1171.7 g in all, 9.47 %,
  // 1.100 g/cm3.
  CHECK_THAT(volume("\"copper sulfate pentahydrate\" = \"173.5 g\""),
             WithinRel(1171.7 / 1.100, 0.01));
}

TEST_CASE("A recipe goes before the entry, which keeps the rest",
          "[solution]") {
  const solver::Case c = read(
      "use = \"acid copper\"\nmade_of = { total = \"1 l\", \"copper sulphate\" "
      "= \"70 g\", \"battery acid\" = \"300 ml\" }\n");
  // 300 ml of 37 % acid of 1.277 g/cm3 are 141.7 g = 1.445 mol.
  CHECK_THAT(molar(c, "sulfuric acid"), WithinRel(1.4452, 1e-3));
  CHECK(c.solution.conductivity.value > 30);
  CHECK_THAT(c.cathode.resistance.value, WithinRel(2.6e-4, kRounding));
  CHECK(is_assumed(c, "solution.made_of"));
}

TEST_CASE("What is more than dissolves is told", "[solution]") {
  const solver::Case c =
      read("made_of = { total = \"1 l\", \"copper sulfate\" = \"500 g\" }\n");
  CHECK(noted(c, "more than dissolves"));
  CHECK(molar(c, "copper sulfate pentahydrate") < 1.5);
}

TEST_CASE("A wide guess comes with the way to measure it", "[solution]") {
  const solver::Case c = read(
      "made_of = { water = \"500 ml\", \"vinegar\" = \"100 ml\", \"nickel "
      "acetate\" = \"1 g\" }\n");
  CHECK_THAT(source_of(c, "conductivity").sure, Contains("wide guess"));
  CHECK(noted(c, "hang two clean plates"));
  // Hydrogen takes much of the current: nothing near 100 %.
  CHECK(c.solution.efficiency.value + c.solution.efficiency.plus_minus < 1);
  CHECK_THAT(io::solution_in_words(c.solution), Contains("wide guess"));
}

TEST_CASE("What is wrong with a solution is said in one line", "[solution]") {
  CHECK_THAT(problem("use = \"acid coper\"\n"),
             Contains("is \"acid copper\" meant?"));
  CHECK_THAT(problem("metal = \"copper\"\n"),
             Contains("conductivity") && Contains("is missing"));
  const auto made = [](const std::string& what) {
    return problem("metal = \"copper\"\nmade_of = { " + what + " }\n");
  };
  CHECK_THAT(made("\"copper sulfate\" = \"45 g\""),
             Contains("water: is missing"));
  CHECK_THAT(made("water = \"500 ml\", \"coper sulfate\" = \"45 g\""),
             Contains("is \"copper sulfate\" meant?"));
  CHECK_THAT(made("water = \"500 ml\", \"sulfuric acid\" = \"20 ml\""),
             Contains("does not say its strength"));
  CHECK_THAT(made("water = \"500 ml\", \"copper sulfate\" = \"20 ml\""),
             Contains("weigh it"));
  CHECK_THAT(made("water = \"500 ml\", \"copper sulfate\" = \"20 mm\""),
             Contains("is no amount"));
  CHECK_THAT(made("water = \"500 ml\", \"sulfuric acid 120 %\" = \"20 ml\""),
             Contains("strength that cannot be"));
  CHECK_THAT(made("water = \"500 ml\", \"boric acid\" = \"10 g\""),
             Contains("nothing in it conducts"));
  CHECK_THAT(made("water = \"5 ml\", \"copper sulfate\" = \"90 kg\""),
             Contains("look at the units"));
  CHECK_THAT(problem("made_of = { water = \"1 l\", \"copper sulfate\" = \"9 "
                     "g\", \"nickel sulfate\" = \"9 g\" }\n"),
             Contains("holds several"));
  CHECK_THAT(problem("made_of = \"500 ml water\"\n"), Contains("made_of"));
}

TEST_CASE("Cyanide solutions carry their warning", "[solution]") {
  CHECK(noted(read("use = \"silver\"\n"), "licence"));
}
