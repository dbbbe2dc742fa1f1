// cases/library/preparation.toml and base_metals.toml: every entry is sound and
// every way that they name can be gone.
#include "io/library.hpp"
#include "io/library_metals_to_plate.hpp"
#include "mesh/errors.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <map>
#include <set>

using namespace thinspot;
using Catch::Matchers::Contains;
using solver::BaseMetals;
using solver::Verdict;
namespace fs = std::filesystem;

TEST_CASE("every base metal is whole, found by each of its names",
          "[library]") {
  const BaseMetals all = io::read_base_metals(io::library_folder());
  CHECK(all.metals.size() >= 18);
  std::set<std::string> names;
  for (const solver::BaseMetal& m : all.metals) {
    CAPTURE(m.name);
    CHECK(names.insert(m.name).second);
    CHECK(solver::find_base(all, m.name) == &m);
    for (const std::string& alias : m.aliases) {
      CAPTURE(alias);
      CHECK(names.insert(alias).second);
      CHECK(solver::find_base(all, alias) == &m);
    }
    // A standard by its number, or that none is known.
    if (m.standard.empty())
      CHECK(m.standard_title == "no standard known");
    else
      CHECK_THAT(m.standard, Catch::StartsWith("ASTM B"));
    CHECK_FALSE(m.source.empty());
    CHECK(m.least_density < m.most_density);
  }
}

TEST_CASE("densities hold the handbook's of the pure metals", "[library]") {
  // Near 20 degC, CRC Handbook of Chemistry and Physics, from memory [kg/m3].
  const std::map<std::string, double> pure{{"copper", 8960},
                                           {"nickel", 8908},
                                           {"low-carbon steel", 7850},
                                           {"tin", 7287},
                                           {"silver", 10490},
                                           {"gold", 19300},
                                           {"titanium", 4506},
                                           {"aluminium", 2700},
                                           {"lead", 11340},
                                           {"magnesium", 1738},
                                           {"chromium", 7190},
                                           {"cadmium", 8650},
                                           {"zinc-coated steel", 7140}};
  const BaseMetals all = io::read_base_metals(io::library_folder());
  for (const auto& [name, density] : pure) {
    CAPTURE(name);
    const solver::BaseMetal* m = solver::find_base(all, name);
    REQUIRE(m);
    CHECK(m->least_density <= density);
    CHECK(m->most_density >= density);
  }
}

TEST_CASE("each metal has a way, or a no, for each usual solution",
          "[library]") {
  const BaseMetals all = io::read_base_metals(io::library_folder());
  std::size_t ways = 0;
  for (const solver::BaseMetal& m : all.metals)
    for (const char* coating : {"acid copper", "nickel"}) {
      CAPTURE(m.name, coating);
      const solver::Route* route = solver::find_route(all, m.name, coating);
      REQUIRE(route);
      CHECK_FALSE(route->why.empty());
      CHECK_FALSE(route->source.empty());
      const bool goes_on = route->verdict == Verdict::holds ||
                           route->verdict == Verdict::needs_strike;
      CHECK((goes_on ? !route->tasks.empty() : true));
      ways += goes_on;
    }
  CHECK(ways >= 26);
}

TEST_CASE("words around a metal's name do not hide it", "[library]") {
  const BaseMetals all = io::read_base_metals(io::library_folder());
  const auto base = [&](const std::string& text) {
    const solver::BaseMetal* m = solver::find_base(all, text);
    return m ? m->name : "";
  };
  CHECK(base("304") == "stainless steel");
  CHECK(base("Stainless steel, 1.4301") == "stainless steel");
  CHECK(base("ZAMAK 5") == "zinc die-cast");
  CHECK(base("galvanized steel sheet") == "zinc-coated steel");
  CHECK(base("chrome plated brass") == "chromium");
  CHECK(base("leaded brass") == "lead-bearing brass");
  CHECK(base("nickel silver") == "nickel silver");
  CHECK(base("aluminum die cast") == "aluminium");
  CHECK(base("unknown").empty());
  CHECK(base("").empty());
  CHECK(base("plywood").empty());
  // Pieces of words are none.
  CHECK(base("brassica").empty());
}

TEST_CASE("names that stand for nothing are refused with their line",
          "[library]") {
  const tests::Scratch scratch;
  const fs::path from = io::library_folder();
  for (const char* file : {"preparation.toml", "base_metals.toml"})
    fs::copy_file(from / file, scratch / file);
  CHECK_NOTHROW(io::read_base_metals(scratch.path()));
  std::string text = tests::content(scratch / "base_metals.toml");
  const std::string piece = "tasks = [\"finish\", \"wash\"";
  const std::size_t at = text.find(piece);
  REQUIRE(at != std::string::npos);
  tests::put(scratch / "base_metals.toml",
             text.replace(at, piece.size(), "tasks = [\"finnish\", \"wash\""));
  try {
    io::read_base_metals(scratch.path());
    FAIL("it was taken");
  } catch (const InputError& error) {
    REQUIRE(error.problems().size() == 1);
    CHECK_THAT(error.problems()[0].wrong, Contains("\"finnish\""));
    CHECK_THAT(error.problems()[0].place, Contains("base_metals.toml:"));
  }
}
