// Several copies of one part.
#include "case_text.hpp"
#include "io/case_file.hpp"
#include "mesh/section.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

using namespace thinspot;
using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr double kRounding = 1e-13;

const std::string kThree =
    "at = [[\"45 mm\", \"20 mm\"], [\"45 mm\", \"50 mm\"], "
    "[\"50 mm\", \"80 mm\"]]\n";

const std::string kClip =
    "[[clip]]\nname = \"hook\"\nshape = \"plate\"\nwidth = \"1 mm\"\n"
    "height = \"4 mm\"\n";

/// The sound case's coin, smaller, hung at the places of a rack.
std::string racked(const std::string& rack, const std::string& more = "") {
  std::string text = with(sound_case(), "at = [\"45 mm\", \"50 mm\"]\n", "");
  text = with(text, "\"30 mm\"", "\"20 mm\"");
  return and_also("[rack]\n" + rack + more, text);
}

}  // namespace

TEST_CASE("A rack repeats the part with its clips", "[case_file]") {
  const solver::Case c =
      read_text(racked(kThree, kClip + "at = [\"45 mm\", \"31 mm\"]\n"))
          .content;
  REQUIRE(c.rack);
  REQUIRE(c.rack->at.size() == 3);
  CHECK_THAT(c.rack->at[2].x(), WithinRel(0.05, kRounding));
  CHECK(c.rack->contact_resistance.empty());
  REQUIRE(c.section.solids.size() == 7);
  int parts = 0;
  for (const mesh::Solid& s : c.section.solids)
    if (s.role == mesh::Role::part) {
      CHECK(s.copy == ++parts);
      CHECK(mesh::key_without_copy(s) == "part");
      CHECK_THAT(s.at.y(), WithinRel(0.02 + 0.03 * (parts - 1), kRounding));
    }
  CHECK(parts == 3);
  REQUIRE(c.clips.at(0).solids.size() == 3);
  for (std::size_t k = 0; k < 3; ++k) {
    const mesh::Solid& hook = c.section.solids.at(c.clips[0].solids[k]);
    CHECK(hook.role == mesh::Role::clip);
    CHECK(hook.copy == static_cast<int>(k) + 1);
    // As far above its part as it is drawn above the first.
    CHECK_THAT(hook.at.y() - c.rack->at[k].y(), WithinAbs(0.011, 1e-15));
  }
  CHECK(c.section.solids.at(c.anodes[0].solid).key == "anode.sheet");
}

TEST_CASE("A clip beside the part is beside its own copy", "[case_file]") {
  const solver::Case c =
      read_text(racked(kThree, kClip + "side = \"above\"\ngap = \"1 mm\"\n"))
          .content;
  for (std::size_t k = 0; k < 3; ++k) {
    const mesh::Solid& hook = c.section.solids.at(c.clips.at(0).solids.at(k));
    CHECK_FALSE(hook.side);
    // Half the coin, the gap, half the clip; found by bisection.
    CHECK_THAT(hook.at.y() - c.rack->at[k].y(),
               WithinAbs(0.010 + 0.001 + 0.002, 1e-9));
  }
}

TEST_CASE("Contacts of a rack: one for all, or one each", "[case_file]") {
  const auto contacts = [](const std::string& text) {
    return read_text(racked(kThree + "contact_resistance = " + text + "\n"))
        .content.rack->contact_resistance;
  };
  const auto same = contacts("\"50 mohm +- 10 mohm\"");
  REQUIRE(same.size() == 3);
  CHECK_THAT(same[2].value, WithinRel(0.05, kRounding));
  CHECK_THAT(same[2].plus_minus, WithinRel(0.01, kRounding));
  const auto each = contacts("[\"10 mohm\", \"20 mohm\", \"1 ohm\"]");
  REQUIRE(each.size() == 3);
  CHECK_THAT(each[1].value, WithinRel(0.02, kRounding));
  CHECK_THAT(each[2].value, WithinRel(1.0, kRounding));
}

TEST_CASE("The slope assumed goes by the current of one copy", "[case_file]") {
  const std::string text = with(racked(kThree),
                                "polarization_resistance = \"2.6 ohm cm2\"\n"
                                "polarization_at = \"2 A/dm2\"\n",
                                "");
  const solver::Case three = read_text(text, {"part.area=0.11 dm2"}).content;
  // 0.33 A over three times 0.11 dm2
  CHECK_THAT(*three.cathode.at, WithinRel(100.0, 1e-12));
}

TEST_CASE("Each wrong rack is named for what it is", "[case_file]") {
  struct Slip {
    std::string rack;
    const char* says;
  };
  const std::vector<Slip> slips{
      {"", "rack.at: is missing"},
      {"at = []\n", "rack.at: is a list of 0, not of 1 to 200"},
      {"at = \"45 mm\"\n", "rack.at: is not a list of points"},
      {"at = [\"45 mm\", \"50 mm\"]\n", "its item 1 is not a list of two"},
      {"at = [[\"45 mm\", \"20 mm\"], [\"45 mm\"]]\n",
       "its item 2 is not a list of two"},
      {"at = [[\"45 mm\", 20]]\n", "20 is a bare number"},
      {"at = [[\"45 mm\", \"nan mm\"]]\n", "rack.at: "},
      {"at = [[\"45 mm\", \"20 A\"]]\n", "rack.at: "},
      {kThree + "contact_resistance = [\"1 ohm\", \"1 ohm\"]\n",
       "rack.contact_resistance: is a list of 2; one for all, or a list of 3"},
      {kThree + "contact_resistance = []\n", "is a list of 0"},
      {kThree + "contact_resistance = [\"1 ohm\", \"1 ohm\", 1]\n",
       "1 is a bare number"},
      {kThree + "contact_resistance = \"-1 ohm\"\n", "out of range"},
      {kThree + "places = 3\n", "is not a key of this table"},
  };
  for (const Slip& s : slips) {
    CAPTURE(s.rack);
    CHECK_THAT(only_problem(racked(s.rack)), Contains(s.says));
  }
  CHECK_THAT(only_problem(and_also("[rack]\n" + kThree)),
             Contains("part.at: the places are given by rack.at as well"));
  CHECK_THAT(
      only_problem(with(sound_case(), "at = [\"45 mm\", \"50 mm\"]", "")),
      Contains("part.at: is missing") && Contains("[rack]"));
}

TEST_CASE("More places than anybody has are refused", "[case_file][hostile]") {
  const auto places = [](int count) {
    std::string at = "at = [";
    for (int k = 0; k < count; ++k)
      at += fmt::format("[\"{} mm\", \"20 mm\"],", k);
    return at + "]\n";
  };
  CHECK(read_text(racked(places(200))).content.rack->at.size() == 200);
  CHECK_THAT(only_problem(racked(places(201))),
             Contains("is a list of 201, not of 1 to 200"));
  std::string clips;
  for (int k = 0; k < 5; ++k)
    clips += with(kClip, "hook", fmt::format("hook {}", k)) +
             "at = [\"45 mm\", \"31 mm\"]\n";
  CHECK_THAT(
      only_problem(racked(places(200), clips)),
      Contains("200 places with 5 clips each") && Contains("at most 1000"));
}

TEST_CASE("On a rack about an axis every body stands on it", "[case_file]") {
  std::string text =
      racked("at = [[\"0 mm\", \"20 mm\"], [\"0 mm\", \"50 mm\"]]\n");
  text = with(text, "schema = 1", "schema = 1\nsection = \"axisymmetric\"");
  text = with(text, "\"left\"", "\"above\"");
  CHECK_NOTHROW(read_text(text));
  CHECK_THAT(
      only_problem(with(text, "[\"0 mm\", \"50 mm\"]", "[\"9 mm\", \"5 mm\"]")),
      Contains("rack.at: a coin must stand on the axis"));
}
