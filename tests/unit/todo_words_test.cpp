// What to do next, in each case that it is told for.
#include "io/todo_words.hpp"
#include "io/words.hpp"
#include "sample_result.hpp"

#include <catch2/catch.hpp>

using namespace thinspot;
using Catch::Matchers::Contains;
using solver::Result;

namespace {

/// 40 min at 0.33 A, as little as 12 µm and as much as 28 µm of 15 µm wanted.
Result sample() { return tests::sample_result(); }

std::string todo(const Result& r) {
  const auto lines = io::todo_words(r);
  REQUIRE(lines.size() == 1);
  return lines.front();
}

}  // namespace

TEST_CASE("where it burns the current comes first") {
  Result r = sample();
  r.steps.push_back(r.steps[0]);
  r.steps[1].burning = true;
  r.steps[1].max_current_density = 634;
  r.steps[0].max_current_density = 900;  // and does not burn
  r.target->met = true;
  CHECK(todo(r) ==
        "Lower the current: the densest spot takes 6.34 A/dm², where the "
        "coating burns.");
}

TEST_CASE("without a target there is none to reach") {
  Result r = sample();
  r.target.reset();
  CHECK_THAT(todo(r), Contains("Put a target thickness into the case file"));
}

TEST_CASE("a target that is met is plated as planned") {
  Result r = sample();
  r.target->met = true;
  CHECK(todo(r) == "Plate as planned: 0.33 A for 40 min.");
  // The current of the last step alone would mislead.
  r.steps.push_back(r.steps[0]);
  r.steps[0].cell.current = 0.5;
  CHECK(todo(r) == "Plate as planned, for 40 min in all.");
}

TEST_CASE("a target missed asks for time, and says what that does") {
  // 3000 s are 50 min; 28 µm grow to 35 µm.
  CHECK(todo(sample()) ==
        "Plate for about 50 min in place of 40 min at the same current; the "
        "heaviest spot then grows to about 35 µm.");
  Result r = sample();
  r.target->time_needed = 3001;  // rounded up
  CHECK_THAT(todo(r), Contains("about 51 min"));
}

TEST_CASE("the heaviest spot is that of all copies") {
  Result r = sample();
  r.parts.push_back(r.parts[0]);
  r.parts[1].thickness.value.max = 40e-6;
  CHECK_THAT(todo(r), Contains("about 50 µm"));
}

TEST_CASE("time that helps too little or never is not advised") {
  Result r = sample();
  r.target->time_needed = 3 * 2400 + 1;
  CHECK_THAT(todo(r), Contains("a poor way, it would take about 121 min") &&
                          Contains("bring an anode nearer"));
  r.target->time_needed = 3 * 2400;
  CHECK_THAT(todo(r), Contains("Plate for about 120 min"));
  r.target->time_needed.reset();
  CHECK(todo(r) ==
        "More time alone will not do: bring an anode nearer to the thin spot, "
        "or turn the part.");
}

TEST_CASE("each layer has a sentence of its own") {
  Result whole = sample();
  whole.layers.resize(2);
  whole.layers[0].name = "copper";
  whole.layers[0].own = sample();
  whole.layers[1].name = "nickel 2";
  whole.layers[1].own = sample();
  whole.layers[1].own.target->met = true;
  const auto lines = io::todo_words(whole);
  REQUIRE(lines.size() == 2);
  CHECK_THAT(lines[0], Catch::Matchers::StartsWith("Copper: Plate for about"));
  CHECK(lines[1] == "Nickel 2: Plate as planned: 0.33 A for 40 min.");
}

TEST_CASE("the summary's words hold what to do") {
  CHECK(io::words_for(sample()).todo == io::todo_words(sample()));
}
