// What the result says of how least and largest were come by.
#include "solver/accuracy_notes.hpp"

#include "bench_cases.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace thinspot;
using Catch::Matchers::Contains;

namespace {

solver::Certified certified(const solver::Case& c) {
  return solver::certify(solver::build_model(c), c);
}

/// A plate with four edges of this radius before a sheet.
solver::Case before_a_sheet(double radius, double resistance) {
  solver::Case c = tests::token();
  c.section.solids[0] = tests::solid(
      mesh::Role::part, "part", "plate",
      {{"width", 0.002}, {"height", 0.02}, {"corner_radius", radius}},
      c.section.solids[0].at);
  c.depth = 0.02;
  c.cathode.at.reset();
  c.cathode.resistance.value = resistance;
  return c;
}

}  // namespace

TEST_CASE("edges at which the ideal current has no bound are named") {
  const solver::Case c = before_a_sheet(0, 0);
  const auto notes = solver::accuracy_notes(certified(c), c);
  REQUIRE(notes.size() == 1);
  CHECK_THAT(notes[0], Contains("At 4 sharp edges of the part") &&
                           Contains("average over 0.1 mm"));
}

TEST_CASE("no word of edges that are round, or that polarization bounds") {
  const double reach = 2e-4;  // of polarization [m], averaging over 1e-4
  for (const solver::Case& c :
       {before_a_sheet(3e-4, 0),
        before_a_sheet(0, reach / tests::token().solution.conductivity.value)})
    CHECK(solver::accuracy_notes(certified(c), c) ==
          std::vector<std::string>());
}

TEST_CASE("a mesh error beyond the tolerance is told, with both figures") {
  solver::Case c = tests::token();
  solver::Certified s = certified(c);
  const double mean = s.outcome.parts[0].current_density_spread.mean;
  s.errors.parts[0].largest = 0.0123 * mean;
  s.within = false;
  c.accuracy.tolerance = 2e-3;
  const auto notes = solver::accuracy_notes(s, c);
  REQUIRE(notes.size() == 1);
  CHECK_THAT(notes[0],
             Contains("1.2 % of the mean") && Contains("tolerance of 0.2 %"));
}
