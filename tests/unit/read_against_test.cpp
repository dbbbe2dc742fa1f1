// A result against what was read at the bench.

#include "solver/read_against.hpp"

#include "io/readings_compared.hpp"
#include "mesh/errors.hpp"
#include "tests/unit/kept_samples.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>

using namespace thinspot;
using namespace thinspot::tests;
using Catch::Matchers::Contains;
using solver::read_against;
using solver::Reading;

namespace {

/// A bar with a cell: 2 V (1.8 to 2.4) at 0.5 A, 12 mg, mean 22 um.
solver::KeptResult answered() {
  solver::KeptResult k = bar(4);
  k.result.cell.current = 0.5;
  k.result.cell.voltage = 2;
  k.result.cell.voltage_band = {1.8, 2.4};
  k.result.cell.current_band = {0.5, 0.5};
  k.result.steps[0].cell = k.result.cell;
  solver::PartResult& part = k.result.parts[0];
  part.mass = 12e-6;
  part.thickness.mean_band = {20e-6, 23e-6};
  part.thickness.min_band = {8e-6, 12e-6};
  part.thickness.max_band = {34e-6, 34e-6};
  part.thickness.mesh_error.max = 0.3e-6;
  solver::Spot& spot = part.thin_spots.emplace_back();
  spot.at = {1e-3, 0};
  spot.where = "middle of lower";
  solver::ProbeResult& probe = k.result.probes.emplace_back();
  probe.name = "mark";
  probe.at = {2e-3, 6e-3};
  probe.thickness = 16.2e-6;
  probe.thickness_mesh_error = 0.1e-6;
  return k;
}

Reading thick(double value, Reading::Where where) {
  Reading r = reading(Reading::Of::thickness, value, 1e-6);
  r.where = where;
  return r;
}

std::string refusal(const Reading& r) {
  try {
    read_against(answered(), {r}, "r.csv");
  } catch (const InputError& error) {
    CHECK(error.problems().size() == 1);
    const Problem& p = error.problems().front();
    return p.place + ": " + p.wrong + "; " + p.mend;
  }
  return "not refused";
}

}  // namespace

TEST_CASE("each reading finds its forecast", "[compare]") {
  const solver::KeptResult k = answered();
  const Reading voltage = reading(Reading::Of::voltage, 2.1, 0.03);
  const Reading current = reading(Reading::Of::current, 0.52, 0.01);
  const Reading mass = reading(Reading::Of::mass, 11e-6, 1e-6);
  Reading point = thick(15e-6, Reading::Where::point);
  point.point = {2.5e-3, 4.1e-3};  // 0.5 mm right of the right face
  Reading probe = thick(15e-6, Reading::Where::probe);
  probe.at = "mark";
  const auto all = read_against(
      k,
      {voltage, current, mass, point, probe, thick(9e-6, Reading::Where::mean),
       thick(9e-6, Reading::Where::thinnest),
       thick(35e-6, Reading::Where::heaviest)},
      "r.csv");
  CHECK(all[0].forecast == 2);
  // Read above the forecast: its band's upper side counts, half widths of 95 %.
  CHECK(all[0].deviation == Approx(std::hypot(0.03, 0.4) / 1.96).epsilon(1e-4));
  CHECK(all[0].z == Approx(-0.1 * 1.96 / std::hypot(0.03, 0.4)).epsilon(1e-4));
  CHECK(all[1].forecast == 0.5);
  CHECK(all[1].z == Approx(-0.02 * 1.96 / 0.01).epsilon(1e-4));
  CHECK(all[2].forecast == Approx(12e-6));
  // As uncertain as the mean thickness: 2 of 22 um downwards.
  CHECK(all[2].deviation ==
        Approx(1e-6 * std::hypot(1, 12.0 * 2 / 22) / 1.96).epsilon(1e-4));
  // 1 mm along the lower edge, 4.1 mm up: straight between points.
  CHECK(all[3].forecast == Approx(15.1e-6));
  REQUIRE(all[3].place);
  CHECK(all[3].place->arc == Approx(5.1e-3));
  CHECK(all[3].place->beside == Approx(0.5e-3));
  CHECK_THAT(all[3].place->where, Contains("right face"));
  CHECK_FALSE(all[3].band);
  CHECK(all[4].forecast == Approx(16.2e-6));
  CHECK(all[4].place->where == "mark");
  CHECK(all[4].deviation ==
        Approx(1e-6 * std::hypot(1, 0.1) / 1.96).epsilon(1e-4));
  CHECK(all[5].forecast == Approx(22e-6));
  CHECK(all[6].forecast == Approx(10e-6));
  CHECK(all[6].place->where == "middle of lower");
  CHECK(all[7].forecast == Approx(34e-6));
  // No band, so the mesh's error stands in for it.
  CHECK(all[7].deviation ==
        Approx(1e-6 * std::hypot(1, 0.3) / 1.96).epsilon(1e-4));
}

TEST_CASE("a point's own band is used where there is one", "[compare]") {
  solver::KeptResult k = answered();
  for (auto& p : k.result.parts[0].surface)
    p.thickness_band = {p.thickness - 2e-6, p.thickness + 3e-6};
  Reading point = thick(14e-6, Reading::Where::point);
  point.point = {2e-3, 4e-3};
  const auto a = read_against(k, {point}, "r.csv").front();
  REQUIRE(a.band);
  CHECK(a.band->low == Approx(13e-6));
  CHECK(a.band->high == Approx(18e-6));
  CHECK(a.z == Approx(1 * 1.96 / std::hypot(1, 2)).epsilon(1e-4));
}

TEST_CASE("what one result cannot answer is refused by its line", "[compare]") {
  Reading r = reading(Reading::Of::voltage, 2, 0.1);
  SECTION("test cells") {
    r.in = GENERATE(Reading::In::panel, Reading::In::two_cathodes);
    CHECK_THAT(refusal(r), Contains("r.csv:7: is of a test cell") &&
                               Contains("fit uses it") &&
                               Contains("leave it out here"));
  }
  SECTION("another set-up") {
    r.with = {"anode.sheet.gap=20 mm"};
    CHECK_THAT(refusal(r), Contains("another set-up (anode.sheet.gap=20 mm)"));
  }
  SECTION("another current") {
    r.at_current = 0.51;
    CHECK_THAT(refusal(r), Contains("0.51 A") && Contains("0.5 A"));
    r.at_current = 0.501;  // as a meter of three digits has it
    CHECK(refusal(r) == "not refused");
  }
  SECTION("a step that is not there") {
    r.step = 1;
    CHECK_THAT(refusal(r), Contains("step 2, the result has 1"));
  }
  SECTION("a copy that is not there") {
    r = thick(9e-6, Reading::Where::mean);
    r.copy = 3;
    CHECK_THAT(refusal(r), Contains("copy 4, the result has 1"));
  }
  SECTION("a probe that is not there") {
    r = thick(9e-6, Reading::Where::probe);
    r.at = "nowhere";
    CHECK_THAT(refusal(r), Contains("\"nowhere\"") && Contains("\"mark\""));
  }
  SECTION("all of them at once") {
    r.in = Reading::In::panel;
    try {
      read_against(answered(), {r, reading(Reading::Of::voltage, 2, 1), r},
                   "r.csv");
      FAIL("not refused");
    } catch (const InputError& error) {
      CHECK(error.problems().size() == 2);
    }
  }
}

TEST_CASE("whether they agree goes by what chance makes", "[compare]") {
  const auto with = [](std::vector<double> z) {
    std::vector<solver::ReadAgainst> all(z.size());
    for (std::size_t k = 0; k < z.size(); ++k) all[k].z = z[k];
    return solver::agreement(all);
  };
  CHECK(with({0.5, -1.9}).agree());
  // A single one: two tails of a normal distribution, 19 times in 20 inside
  // 1.96.
  CHECK(with({1.95}).agree());
  CHECK_FALSE(with({-1.97}).agree());
  CHECK(with({2.0}).chance() == Approx(std::erfc(2.0 / std::sqrt(2.0))));
  // One of two: 1 - 0.95^2 by the count, two times two tails by the distance.
  const auto two = with({0.1, -2.2});
  CHECK(two.worst == 1);
  CHECK(two.chance_of_count == Approx(1 - 0.95 * 0.95));
  CHECK(two.chance_of_worst == Approx(2 * std::erfc(2.2 / std::sqrt(2.0))));
  CHECK(two.chance() == Approx(2 * two.chance_of_worst));
  CHECK(two.agree());
  // As rare a count, but much too far.
  const auto far = with({0.1, -3.9});
  CHECK(far.chance_of_count == two.chance_of_count);
  CHECK(far.count_agrees());
  CHECK_FALSE(far.agree());
  // The largest of a hundred lies as far as 3 with a chance of about a quarter.
  std::vector<double> many(100, 0.5);
  many[3] = 3;
  CHECK(with(many).agree());
  many[3] = 4;
  CHECK_FALSE(with(many).agree());
  // Two of five: 1 - 0.95^5 - 5 x 0.05 x 0.95^4.
  const auto g = with({0, 0, 2.3, 0, -2.3});
  CHECK(g.chance_of_count ==
        Approx(1 - std::pow(0.95, 5) - 0.25 * std::pow(0.95, 4)));
  CHECK(g.chance_of_worst > 0.1);
  CHECK_FALSE(g.count_agrees());
  CHECK_FALSE(g.agree());
  CHECK(g.mean == 0);
}

TEST_CASE("sound tables are refused once in twenty at most", "[compare]") {
  // The largest |z| of n independent ones is below c with (1 - tails)^n; where
  // the count refuses besides, the union's chance is at most the sum of both.
  // Walks all pairs (count, distance) at which the answer turns.
  for (const std::size_t n : {1U, 2U, 3U, 5U, 20U, 100U}) {
    std::vector<solver::ReadAgainst> all(n);
    const auto agrees = [&] { return solver::agreement(all).agree(); };
    double near = 0, far = 10;
    for (int halving = 0; halving < 60; ++halving) {
      all[0].z = (near + far) / 2;
      (agrees() ? near : far) = all[0].z;
    }
    const double distance =
        1 - std::pow(1 - std::erfc(far / std::sqrt(2.0)), double(n));
    // As many as still agree, each just beyond 1.96.
    std::size_t most = 0;
    for (auto& a : all) a.z = 0;
    for (; most < n; ++most) {
      all[most].z = 1.97;
      if (!agrees()) break;
    }
    double more = 0;  // chance of more than `most`
    for (std::size_t k = most + 1; k <= n; ++k)
      more += std::exp(std::lgamma(double(n) + 1) - std::lgamma(double(k) + 1) -
                       std::lgamma(double(n - k) + 1)) *
              std::pow(0.05, double(k)) * std::pow(0.95, double(n - k));
    CAPTURE(n, far, most, distance, more);
    // A single one is refused by its distance, which is its count.
    CHECK(distance + (n == 1 ? 0 : more) <= 0.05 + 1e-9);
    CHECK(distance > 0.02);
  }
}

TEST_CASE("readings in words and numbers", "[compare]") {
  Reading voltage = reading(Reading::Of::voltage, 2.1, 0.03);
  voltage.method = "multimeter";
  voltage.note = "warm, \"early\"";
  voltage.line = 3;
  Reading point = thick(12e-6, Reading::Where::point);
  point.point = {4e-3, 4e-3};
  point.line = 4;
  const solver::KeptResult k = answered();
  const auto all = read_against(k, {voltage, point}, "r.csv");
  const io::ReadingsWords words = io::readings_words(all);
  CHECK_THAT(words.rows[0].read, Contains("2.10 ± 0.03 V"));
  CHECK_THAT(words.rows[0].forecast, Contains("(1.8 to 2.4)"));
  CHECK(words.rows[0].difference == "−0.1 V (−5 %)");
  CHECK_THAT(words.places.front(), Contains("line 4"));
  CHECK_THAT(words.notes[1], Contains("2 mm beside the surface"));
  const auto json = nlohmann::json::parse(
      io::readings_json(k, "r.csv", all, words, {{"compare.csv", 7}}));
  CHECK(json["kind"] == "readings");
  CHECK(json["readings"].size() == 2);
  CHECK(json["readings"][0]["band"][1] == 2.4);
  CHECK(json["readings"][1]["place"]["beside_mm"] == Approx(2));
  const std::string csv = io::readings_csv(all);
  CHECK_THAT(csv, Contains("\"warm, \"\"early\"\"\""));
  auto one_far = all;
  one_far[0].z = 0.1;
  one_far[1].z = 3.9;
  CHECK(io::readings_words(one_far).verdict ==
        "Forecast and readings do not agree: 1 of 2 lies farther apart than "
        "both are uncertain, too far for chance alone.");
}
