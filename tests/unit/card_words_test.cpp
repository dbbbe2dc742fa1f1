// What the card for the bench says: steps as hands do them, meter, thickness.
#include "io/card_words.hpp"
#include "sample_result.hpp"
#include "solver/face_letters.hpp"

#include <catch2/catch.hpp>

#include <numbers>

using namespace thinspot;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;
using solver::Result;

namespace {

io::CardWords words(const Result& r) {
  return io::card_words(r, io::words_for(r));
}

/// The sample with so many alike steps of 10 min.
Result stepped(std::size_t count) {
  Result r = tests::sample_result();
  r.steps[0].duration = 600;
  r.steps.resize(count, r.steps[0]);
  r.used.steps.assign(count, {{600, 0}});
  return r;
}

std::string second_step(const Result& r) { return words(r).steps.at(1); }

}  // namespace

TEST_CASE("faces are lettered as columns of a sheet are") {
  using solver::face_letter;
  CHECK(face_letter(0) == "A");
  CHECK(face_letter(25) == "Z");
  CHECK(face_letter(26) == "AA");
  CHECK(face_letter(51) == "AZ");
  CHECK(face_letter(52) == "BA");
  CHECK(face_letter(701) == "ZZ");
  CHECK(face_letter(702) == "AAA");
}

TEST_CASE("a step says what to set, what to expect, how long") {
  Result r = tests::sample_result();
  r.used.supply.voltage_limit = 6;
  CHECK(words(r).steps ==
        std::vector<std::string>{"Set 0.33 A (limit 6 V), expect 0.42 V (0.36 "
                                 "to 0.48); 40 min."});
  r.steps[0].cell.limited_by = "voltage";
  r.used.supply.lead_resistance = {6.8, 0};
  CHECK(words(r).steps[0] ==
        "Supply at 0.42 V (6.8 ohm in the lead), expect 0.33 A; 40 min.");
  r.steps[0].cell.limited_by = "voltage limit";
  CHECK(words(r).steps[0] ==
        "Set the limit of 0.42 V, which holds, expect 0.33 A; 40 min.");
}

TEST_CASE("an adapter needs its resistor, not a knob") {
  Result r = tests::sample_result();
  r.used.supply.adapter = solver::Adapter{5, {}};
  // (5 - 0.42) V / 0.33 A = 13.9 ohm; the next of the series is 15.
  CHECK_THAT(words(r).steps[0],
             StartsWith("The 5 V adapter with 15 ohm in series, expect 0.3"));
}

TEST_CASE("each rectifier has its setting") {
  Result r = tests::sample_result();
  r.steps[0].cell.rectifiers = {
      {"front", 0.2, 1.5, {0.2, 0.2}, {1.4, 1.7}, "current"},
      {"back", 0, 0, {}, {}, "idle"}};
  r.used.rectifiers.resize(2);
  CHECK(words(r).steps[0] ==
        "Front: set 0.2 A, expect 1.5 V (1.4 to 1.7); back: gives nothing; 40 "
        "min.");
}

TEST_CASE("what hands change between steps comes first, supply off") {
  Result r = stepped(3);
  CHECK_THAT(second_step(r), StartsWith("Set 0.33 A"));
  r.steps[1].motion.flip = true;
  CHECK_THAT(second_step(r),
             StartsWith("Supply off; flip the part, left and right change "
                        "places. Set 0.33 A"));
  // It stays flipped: nothing to be done.
  r.steps[2].motion.flip = true;
  CHECK_THAT(words(r).steps[2], StartsWith("Set"));
}

TEST_CASE("turns are told the short way round, as they are seen") {
  const double quarter = std::numbers::pi / 2;
  Result r = stepped(2);
  r.steps[1].motion.turn = quarter;
  CHECK_THAT(second_step(r), Contains("by 90° counter-clockwise"));
  r.steps[0].motion.turn = 3 * quarter;
  r.steps[1].motion.turn = 4 * quarter;
  CHECK_THAT(second_step(r), Contains("by 90° counter-clockwise"));
  r.steps[0].motion.turn = 0;
  r.steps[1].motion.turn = 3 * quarter;
  CHECK_THAT(second_step(r), Contains("by 90° clockwise"));
  // Behind the mirror a turn goes the other way.
  r.steps[0].motion = {true, 0};
  r.steps[1].motion = {true, quarter};
  CHECK_THAT(second_step(r), Contains("by 90° clockwise") && !Contains("flip"));
  r.steps[1].turning = solver::Turning{4, 30, 0};
  CHECK_THAT(second_step(r), Contains("in 4 positions evenly round, 30 s at "
                                      "each, over again"));
  r.steps[1].turning = solver::Turning{0, 0, 0.1};
  CHECK_THAT(second_step(r), Contains("the part turning at 6 rpm"));
}

TEST_CASE("anodes and clips come and go by name") {
  Result r = stepped(2);
  r.steps[0].lifted = {"left"};
  r.steps[1].off = {"right", "far"};
  CHECK_THAT(words(r).steps[0], StartsWith("Leave left out of the tank. Set"));
  CHECK_THAT(second_step(r),
             StartsWith("Supply off; put left back into the tank; take the "
                        "lead off right and far. Set"));
  r = stepped(2);
  r.used.clips.resize(2);
  r.used.clips[0].name = "top";
  r.used.clips[1].name = "side";
  r.used.steps[0].clips = {{"top"}};
  r.used.steps[1].clips = {{"side"}};
  CHECK_THAT(words(r).steps[0], StartsWith("Leave off the clip side."));
  CHECK_THAT(second_step(r), Contains("put on the clip side; take off the "
                                      "clip top"));
}

TEST_CASE("a warmer step says so") {
  Result r = stepped(2);
  r.steps[0].temperature = 298.15;
  r.steps[1].temperature = 313.15;
  CHECK_THAT(second_step(r), Contains("bring the solution to 40 °C"));
}

TEST_CASE("steps of all layers stand in one list") {
  Result whole = stepped(2);
  whole.layers.resize(2);
  whole.layers[0].name = "copper";
  whole.layers[1].name = "nickel";
  for (auto& layer : whole.layers) layer.own = stepped(1);
  whole.layers[1].own.steps[0].motion.flip = true;
  const io::CardWords said = words(whole);
  REQUIRE(said.steps.size() == 2);
  CHECK_THAT(said.steps[0], StartsWith("Into the copper tank. Set"));
  CHECK_THAT(said.steps[1],
             StartsWith("Rinse, into the nickel tank. Flip the part"));
  CHECK(said.thickness.size() == 3);
  CHECK_THAT(said.thickness[0], StartsWith("Copper, wanted 15 µm: least"));
  CHECK_THAT(said.thickness[2], StartsWith("Together"));
  CHECK_THAT(said.tank, StartsWith("Acid copper,") && Contains("; then "));
  CHECK(said.todo.size() == 2);
}

TEST_CASE(
    "the card expects what the summary says, and judges where it counts") {
  Result r = tests::sample_result();
  CHECK(words(r).thickness ==
        std::vector<std::string>{"Wanted 15 µm: least 12 µm (11 to 13), mean "
                                 "17.6 µm, largest 28 µm (25 to 31)."});
  r.target->least = 14e-6;
  CHECK_THAT(words(r).thickness[0],
             StartsWith("Wanted 15 µm where it counts, expected there 14 µm; "
                        "in all least 12 µm"));
  r.target.reset();
  CHECK_THAT(words(r).thickness[0], StartsWith("Least 12 µm"));
}

TEST_CASE("the meter that is not held tells") {
  Result r = tests::sample_result();
  CHECK_THAT(words(r).meter[1], StartsWith("Half the volts: a short"));
  CHECK_THAT(words(r).meter[2], StartsWith("Twice the volts: poor contact"));
  r.steps[0].cell.limited_by = "voltage";
  CHECK_THAT(words(r).meter[1], StartsWith("Twice the amps: a short"));
  r.steps.push_back(tests::sample_result().steps[0]);
  CHECK_THAT(words(r).meter[1],
             StartsWith("Half the volts, or twice the amps: a short"));
}
