// Points of a grid: their order, groups and corners, and keys that are refused.
#include "io/sweep.hpp"
#include "mesh/errors.hpp"
#include "tests/unit/sweep_requests.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <algorithm>
#include <map>
#include <set>

using namespace thinspot;
using namespace thinspot::tests;
using Catch::Matchers::Contains;

namespace {

constexpr const char* kGaps = "anode.sheet.gap=20 mm,35 mm,30 mm";
constexpr const char* kCurrents = "supply.current=0.4 A,0.2 A";
constexpr const char* kTimes = "step.1.duration=30 min..60 min:4";

/// Each position has a point of its own, groups lie together, and agree with
/// what the geometry is set to.
void check_positions(const io::Sweep& sweep,
                     const std::vector<std::size_t>& geometric) {
  std::set<std::uint64_t> points, left;
  std::map<std::uint64_t, std::string> set_to;
  std::map<std::string, std::uint64_t> groups;
  std::uint64_t group = 0;
  for (std::uint64_t k = 0; k < sweep.size(); ++k) {
    const std::uint64_t point = sweep.point_at(k);
    CHECK(point < sweep.size());
    CHECK(points.insert(point).second);
    std::string text;
    for (std::size_t axis : geometric) text += sweep.text(point, axis) + ";";
    const std::uint64_t here = sweep.group_of(point);
    if (k > 0 && here != group) CHECK(left.insert(group).second);
    CHECK(left.count(here) == 0);
    group = here;
    CHECK(set_to.emplace(here, text).first->second == text);
    if (sweep.shares()) CHECK(groups.emplace(text, here).first->second == here);
  }
}

std::string words_of(const InputError& error) {
  const Problem& p = error.problems().front();
  return p.key + ": " + p.wrong + "; " + p.mend;
}

std::string refusal(std::vector<std::string> vary, std::uint64_t sample = 0) {
  try {
    sweep_of(std::move(vary), sample);
  } catch (const InputError& error) {
    REQUIRE(error.problems().size() == 1);
    return words_of(error);
  }
  return "taken";
}

/// What corners are made of, as a set.
std::multiset<std::string> corner_texts(const io::Sweep& sweep,
                                        std::uint64_t point) {
  std::multiset<std::string> all;
  for (const solver::Case& c : sweep.corners(point)) {
    const auto& anode = *std::find_if(
        c.section.solids.begin(), c.section.solids.end(),
        [](const auto& s) { return s.role == mesh::Role::anode; });
    all.insert(fmt::format("{} {} {} {} {}", anode.gap, c.supply.current->value,
                           c.steps.front().duration.value,
                           c.solution.conductivity.value,
                           c.cathode.resistance.value));
  }
  return all;
}

}  // namespace

TEST_CASE("points go by keys as they are given, the last fastest", "[sweep]") {
  const io::Sweep sweep = sweep_of({kGaps, kCurrents});
  REQUIRE(sweep.size() == 6);
  CHECK(sweep.is_grid());
  std::vector<std::string> all;
  for (std::uint64_t k = 0; k < 6; ++k) all.push_back(texts_of(sweep, k));
  CHECK(all == std::vector<std::string>{"20 mm, 0.4 A", "20 mm, 0.2 A",
                                        "35 mm, 0.4 A", "35 mm, 0.2 A",
                                        "30 mm, 0.4 A", "30 mm, 0.2 A"});
  CHECK(sweep.number(2, 0) == 35);
  CHECK(sweep.number(3, 1) == 0.2);
  CHECK(sweep.value_index(5, 0) == 2);
  CHECK(sweep.content(3).supply.current->value == 0.2);
  CHECK(sweep.inputs()[0].name == "anode.sheet.gap_mm");
}

TEST_CASE("work goes group after group", "[sweep]") {
  check_positions(sweep_of({kGaps, kCurrents, kTimes}), {0});
  check_positions(sweep_of({kCurrents, kGaps, kTimes}), {1});
  check_positions(sweep_of({kCurrents, kTimes, kGaps}), {2});
  check_positions(sweep_of({kCurrents, kTimes}), {});
  check_positions(sweep_of({kGaps, "anode.sheet.height=60 mm,70 mm"}), {0, 1});
  check_positions(
      sweep_of({"anode.sheet.height=60 mm,70 mm", kCurrents, kGaps}), {0, 2});
  CHECK(sweep_of({kCurrents}).shares());
  CHECK_FALSE(sweep_of({kGaps}).shares());
  // By lot, from lists.
  check_positions(sweep_of({kCurrents, kGaps,
                            "supply.lead_resistance=0 "
                            "ohm..1 ohm"},
                           100),
                  {1});
  // Each a geometry of its own.
  const io::Sweep lone =
      sweep_of({"anode.sheet.gap=20 mm..30 mm", kCurrents}, 50);
  CHECK_FALSE(lone.shares());
  check_positions(lone, {0, 1});
}

TEST_CASE("one key, and as many as there may be", "[sweep]") {
  CHECK(sweep_of({"supply.current=0.2 A"}).size() == 1);
  std::string text = sound_case();
  std::vector<std::string> vary;
  for (int k = 1; k <= 21; ++k) {
    text += fmt::format(
        "[[probe]]\nname = \"p{}\"\nat = [\"45 mm\", \"65 mm\"]\n", k);
    vary.push_back(fmt::format("probe.p{}.at.x=40 mm..50 mm", k));
  }
  const std::vector<std::string> twenty(vary.begin(), vary.begin() + 20);
  CHECK(sweep_of(twenty, 10, text).axes().size() == 20);
  CHECK_THROWS_WITH(sweep_of(vary, 10, text), Contains("21 times"));
  CHECK_THROWS_WITH(sweep_of({}), Contains("nothing is varied"));
}

TEST_CASE("keys that are none, twice, or exclude each other", "[sweep]") {
  CHECK_THAT(refusal({"anode.sheet.gpa=1 mm,2 mm"}),
             Contains("anode.sheet.gpa: is not a key of this case; is "
                      "\"anode.sheet.gap\" meant?"));
  CHECK_THAT(refusal({"?=1"}), Contains("is not a key"));
  CHECK_THAT(refusal({kCurrents, "supply.current=1 A,2 A"}),
             Contains("supply.current: is varied twice"));
  for (const bool swapped : {false, true}) {
    const auto both = [&](std::string a, std::string b) {
      return swapped ? refusal({b, a}) : refusal({a, b});
    };
    CHECK_THAT(both(kCurrents, "supply.voltage=1 V,2 V"),
               Contains("cannot be varied beside"));
    CHECK_THAT(both("cathode.tafel_slope=100 mV,120 mV",
                    "cathode.polarization_resistance=1 ohm cm2,2 ohm cm2"),
               Contains("cannot be varied beside"));
    // What sets the half of a point, or the whole of it.
    CHECK_THAT(both("part.at=[\"45 mm\",\"50 mm\"],[\"44 mm\",\"50 mm\"]",
                    "part.at.x=45 mm,44 mm"),
               Contains("cannot be varied beside"));
    CHECK_THAT(both("anode.sheet.at.x=10 mm,12 mm", kGaps),
               Contains("cannot be varied beside"));
    CHECK(both("part.at.x=45 mm,44 mm", "part.at.y=50 mm,51 mm") == "taken");
  }
}

TEST_CASE("too many points, or not known how many", "[sweep]") {
  CHECK_THAT(refusal({"anode.sheet.gap=10 mm..40 mm"}),
             Contains("range without a number of values"));
  CHECK(refusal({"anode.sheet.gap=10 mm..40 mm"}, 10) == "taken");
  const std::string gap = "anode.sheet.gap=10 mm..40 mm:";
  const std::string current = "supply.current=0.1 A..1 A:";
  CHECK(sweep_of({gap + "3162", current + "3162"}).size() == 3162 * 3162);
  CHECK(sweep_of({gap + "10000", current + "1000"}).size() == 10'000'000);
  CHECK_THAT(refusal({gap + "3163", current + "3163"}),
             Contains("too many points"));
  // 10^25: more than 64 bits hold.
  CHECK_THAT(refusal({gap + "100000", current + "100000",
                      "supply.lead_resistance=0 ohm..1 ohm:100000",
                      "solution.conductivity=10 S/m..20 S/m:100000",
                      "step.1.duration=10 min..20 min:100000"}),
             Contains("too many points"));
  CHECK_THAT(refusal({kCurrents}, 1'000'001), Contains("too many"));
}

TEST_CASE("corners are the same whatever the order", "[sweep]") {
  const std::string gap = "anode.sheet.gap=20 mm,30 mm";
  const std::string current = "supply.current=0.4 A,0.2 A,0.3 A";
  const std::string time = "step.1.duration=60 min,30 min,50 min,40 min";
  const io::Sweep one = sweep_of({gap, current, time});
  const io::Sweep other =
      sweep_of({"step.1.duration=30 min,40 min,50 min,60 min", gap,
                "supply.current=0.3 A,0.2 A,0.4 A"});
  const auto corners = corner_texts(one, 0);
  CHECK(corners.size() == 4);
  CHECK(std::set<std::string>(corners.begin(), corners.end()).size() == 4);
  std::size_t same = 0;
  for (std::uint64_t a = 0; a < one.size(); ++a)
    for (std::uint64_t b = 0; b < other.size(); ++b)
      if (one.text(a, 0) == other.text(b, 1)) {
        same += corner_texts(one, a) == corner_texts(other, b);
      } else {
        CHECK(corner_texts(one, a) != corner_texts(other, b));
      }
  CHECK(same == one.size() * other.size() / 2);
  // In their order too: meshes are refined for one after the other.
  CHECK(one.corners(0).front().supply.current->value ==
        other.corners(0).front().supply.current->value);
}

TEST_CASE("corners of many keys are ends and the middles between", "[sweep]") {
  const std::vector<std::string> keys{
      "supply.current=0.2 A,0.3 A,0.4 A",
      "step.1.duration=30 min,40 min,50 min",
      "solution.conductivity=15 S/m,20 S/m,25 S/m",
      "cathode.polarization_resistance=1 ohm cm2,2 ohm cm2,3 ohm cm2",
      "supply.lead_resistance=0 ohm,1 ohm,2 ohm"};
  const io::Sweep sweep = sweep_of(keys);
  // All low, all high, and each key's two ends.
  CHECK(sweep.corners(0).size() == 12);
  const auto corners = corner_texts(sweep, 7);
  CHECK(corners == corner_texts(sweep, 100));
  CHECK(corners == corner_texts(sweep_of({keys.rbegin(), keys.rend()}), 3));
  for (const char* key : {"0.2 ", "0.4 "})
    CHECK(std::count_if(corners.begin(), corners.end(), [&](const auto& text) {
            return text.find(key) != std::string::npos;
          }) == 2);
}

TEST_CASE("corners that cannot be read are left out", "[sweep]") {
  const io::Sweep sweep = sweep_of({"supply.current=0.3 A,-1 A"});
  CHECK(sweep.corners(0).size() == 1);
  CHECK_THROWS_AS(sweep.content(1), InputError);
}
