// Two results against each other: which points belong together, what lies
// between them, which parts are not the same.

#include "io/comparison_files.hpp"
#include "io/comparison_words.hpp"
#include "mesh/errors.hpp"
#include "solver/same_outline.hpp"
#include "tests/unit/kept_samples.hpp"
#include "tests/unit/rack_result.hpp"
#include "tests/unit/synthetic_result.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <limits>
#include <numbers>
#include <sstream>

using namespace thinspot;
using namespace thinspot::tests;
using Catch::Matchers::Contains;
using solver::compared;
using solver::Comparison;
using solver::Figure;
using solver::KeptResult;

namespace {

/// The only line of what is refused.
std::string refusal(const KeptResult& a, const KeptResult& b) {
  try {
    compared(a, b);
  } catch (const InputError& error) {
    CHECK(error.problems().size() == 1);
    return error.what();
  }
  return "not refused";
}

double largest_difference(const Comparison& c, const KeptResult& a) {
  double most = 0;
  for (const auto& p : c.parts)
    for (std::size_t k = 0; k < p.both.size(); ++k) {
      if (!p.both[k]) continue;
      const double here = a.result.parts[p.a].surface[k].thickness;
      most = std::max(
          most, std::abs(p.thickness(static_cast<Eigen::Index>(k)) - here));
    }
  return most;
}

}  // namespace

TEST_CASE("a result against itself differs nowhere", "[compare]") {
  for (const HardCase& hard : hard_cases()) {
    CAPTURE(hard.name);
    const KeptResult a = kept(synthetic_result(hard.wanted));
    const Comparison c = compared(a, a);
    CHECK(c.parts.size() == a.result.parts.size());
    CHECK(largest_difference(c, a) == 0);
    for (const Figure& f : c.figures)
      CHECK(f.verdict() == Figure::Verdict::alike);
    CHECK_FALSE(c.parts.front().gain);
    CHECK_FALSE(c.parts.front().loss);
    // All that is plated is compared.
    for (const auto& p : c.parts) {
      const auto& surface = a.result.parts[p.a].surface;
      for (std::size_t k = 0; k < surface.size(); ++k)
        CHECK((p.both[k] != 0) == surface[k].wetted);
    }
    CHECK_THAT(io::comparison_words(a, a, c).verdict,
               Contains("at every point"));
  }
}

TEST_CASE("what runs straight along the surface is met between points",
          "[compare]") {
  const KeptResult a = bar(7), b = bar(3, "b-out");
  const Comparison c = compared(a, b);
  const auto& s = a.result.parts[0].surface;
  // Rounding alone; the jump from the last point to the first apart.
  for (std::size_t k = 0; k < s.size(); ++k) {
    if (s[k].arc > 24e-3 - 0.34e-3) continue;
    const auto at = static_cast<Eigen::Index>(k);
    CHECK(c.parts[0].thickness(at) == Approx(s[k].thickness).epsilon(1e-12));
    CHECK(c.parts[0].current_density(at) ==
          Approx(s[k].current_density).epsilon(1e-12));
  }
}

TEST_CASE("round the loop the last point leads to the first", "[compare]") {
  const KeptResult a = bar(8), b = bar(1, "b-out");
  const auto match =
      solver::match_outlines(a.result.parts[0], b.result.parts[0], "b").front();
  const auto place = solver::place_on(b.result.parts[0], match, 23.5e-3);
  CHECK(place.from == 23);
  CHECK(place.to == 0);
  CHECK(place.share == Approx(0.5));
  // From 33 um at 23 mm back to 10 um at 24 mm.
  const auto at = static_cast<Eigen::Index>(8 * 23 + 4);
  CHECK(compared(a, b).parts[0].thickness(at) == Approx(21.5e-6));
}

TEST_CASE("a part that hangs otherwise is the same part", "[compare]") {
  const KeptResult a = bar(4);
  // Turned by a quarter its left face lies lowest, and is walked first.
  const double turn = GENERATE(0.0, std::numbers::pi / 2, 1.1, -2.9);
  const std::size_t begin = GENERATE(0u, 4u, 31u, 77u);
  const KeptResult b = moved(bar(4, "b-out"), turn, {0.03, -0.01}, begin);
  const Comparison c = compared(a, b);
  CAPTURE(turn, begin, c.parts[0].shift);
  // Half a turn lays the bar on itself: the faces' names tell which way round.
  // The arc is found to a tenth of the files' last digit, on 1 um a mm.
  CHECK(largest_difference(c, a) < 1e-9);
}

TEST_CASE("other shapes are refused, saying what differs", "[compare]") {
  const KeptResult a = bar(4);
  SECTION("another length") {
    KeptResult b = bar(4, "b-out");
    for (auto& p : b.result.parts[0].surface) {
      p.at *= 1.01;
      p.arc *= 1.01;
    }
    CHECK_THAT(refusal(a, b), Contains("b-out: ") &&
                                  Contains("24.24 mm all round") &&
                                  Contains("there 24.00 mm"));
  }
  SECTION("as long, but bent") {
    KeptResult b = bar(4, "b-out");
    // 2 mm by 10 mm made to 4 mm by 8 mm.
    for (auto& p : b.result.parts[0].surface) {
      const double s = 1e3 * p.arc;
      const mesh::Point at = s < 2    ? mesh::Point(2 + s, 0)
                             : s < 10 ? mesh::Point(4, s - 2)
                             : s < 14 ? mesh::Point(14 - s, 8)
                             : s < 22 ? mesh::Point(0, 22 - s)
                                      : mesh::Point(s - 22, 0);
      p.at = 1e-3 * at;
    }
    CHECK_THAT(refusal(a, b), Contains("mm apart"));
  }
  SECTION("mirrored") {
    KeptResult b = bar(4, "b-out");
    KeptResult c = a;
    // A corner cut off tells left from right.
    for (KeptResult* k : {&b, &c})
      for (auto& p : k->result.parts[0].surface)
        if (p.face == 2) p.at.y() -= 0.7 * (p.at.x() - 0.5e-3);
    for (auto& p : b.result.parts[0].surface) p.at.x() = -p.at.x();
    CHECK_THAT(refusal(c, b), Contains("mm apart"));
  }
  SECTION("more outlines") {
    KeptResult b = bar(4, "b-out");
    auto& s = b.result.parts[0].surface;
    const std::vector<solver::SurfacePoint> hole(s.begin(), s.begin() + 9);
    for (solver::SurfacePoint p : hole) {
      p.loop = 1;
      s.push_back(p);
    }
    CHECK_THAT(refusal(a, b), Contains("2 outlines, there 1"));
  }
  SECTION("more parts") {
    KeptResult b = bar(4, "b-out");
    b.result.parts.push_back(b.result.parts[0]);
    CHECK_THAT(refusal(a, b), Contains("b-out: has 2 parts"));
  }
  SECTION("another kind of section") {
    KeptResult b = bar(4, "b-out");
    b.result.section.cut = mesh::Cut::axisymmetric;
    CHECK_THAT(refusal(a, b), Contains("axisymmetric"));
  }
  SECTION("nothing in common") {
    KeptResult b = bar(4, "b-out");
    for (auto& p : b.result.parts[0].surface) p.wetted = false;
    CHECK_THAT(refusal(a, b), Contains("plates nothing"));
  }
}

TEST_CASE("most gained and most lost, with their places", "[compare]") {
  const KeptResult a = bar(20);
  KeptResult b = bar(20, "b-out");
  for (auto& p : b.result.parts[0].surface) {
    // Hats 2 mm wide about the middles of both long faces.
    const double right = 1 - std::abs(1e3 * p.arc - 6);
    const double left = 1 - std::abs(1e3 * p.arc - 18);
    p.thickness += 1e-6 * (3 * std::max(0.0, right) - 2 * std::max(0.0, left));
  }
  const Comparison c = compared(a, b);
  const auto& p = c.parts[0];
  REQUIRE(p.gain);
  REQUIRE(p.loss);
  // Over 0.1 mm about its tip a hat of slope 1 an mm loses a fortieth.
  CHECK(p.gain->by() == Approx(3e-6 * (1 - 0.025)).epsilon(1e-9));
  CHECK(p.loss->by() == Approx(-2e-6 * (1 - 0.025)).epsilon(1e-9));
  CHECK(p.gain->where == "middle of the right face");
  CHECK(p.loss->where == "middle of the left face");
  CHECK_FALSE(p.gain->beyond);
  CHECK(p.thicker == Approx(2.0 / 24).margin(0.05 / 24 + 1e-9));
  CHECK(p.thinner == Approx(2.0 / 24).margin(0.05 / 24 + 1e-9));
  SECTION("only on what counts") {
    KeptResult back = a;
    for (auto& q : back.result.parts[0].surface) q.judged = q.face != 1;
    CHECK_FALSE(compared(back, b).parts[0].gain);
  }
  SECTION("bands apart or not") {
    const std::size_t n = a.result.parts[0].surface.size();
    KeptResult banded = a;
    for (std::size_t k = 0; k < n; ++k) {
      const double in_a = a.result.parts[0].surface[k].thickness;
      const double in_b = b.result.parts[0].surface[k].thickness;
      banded.result.parts[0].surface[k].thickness_band = {in_a - 1.2e-6,
                                                          in_a + 1.2e-6};
      b.result.parts[0].surface[k].thickness_band = {in_b - 1.2e-6,
                                                     in_b + 1.2e-6};
    }
    const auto with = compared(banded, b).parts[0];
    CHECK(with.gain->beyond == true);   // 3 um
    CHECK(with.loss->beyond == false);  // 2 um
    // Of the hat of 3 um a fifth of its width is above 2.4 um.
    CHECK(*with.beyond == Approx(0.4 / 24).margin(0.1 / 24));
    CHECK_THAT(io::comparison_csv(banded, compared(banded, b)),
               Contains(",beyond_bands\n") && Contains(",1\n"));
  }
}

TEST_CASE("copies on a rack go by their names, else by their order",
          "[compare]") {
  solver::Result rack = rack_result();
  for (auto& p : rack.parts[0].surface) p.thickness *= 1.1;
  const KeptResult a = kept(rack);
  KeptResult b = kept(rack, "b-out");
  std::swap(b.result.parts[0], b.result.parts[2]);
  std::swap(b.result.section.solids[0], b.result.section.solids[2]);
  b.result.parts[0].solid = 0;
  b.result.parts[2].solid = 2;
  const Comparison by_name = compared(a, b);
  CHECK(by_name.parts[0].b == 2);
  CHECK(by_name.parts[2].b == 0);
  CHECK(largest_difference(by_name, a) == 0);
  b.result.parts[0].name = "another";
  const Comparison by_order = compared(a, b);
  CHECK(by_order.parts[0].b == 0);
  CHECK(largest_difference(by_order, a) > 0);
  const io::ComparisonWords words = io::comparison_words(a, b, by_order);
  CHECK(words.copies.size() == 3);
  CHECK_THAT(words.notes.back(), Contains("order"));
}

TEST_CASE("a figure's verdict", "[compare]") {
  using Verdict = Figure::Verdict;
  Figure f{Figure::Of::mean, 10e-6, 11e-6};
  CHECK(f.verdict() == Verdict::plain);
  f.mesh_error = 1.1e-6;
  CHECK(f.verdict() == Verdict::alike);
  f.mesh_error = 0.1e-6;
  f.band_a = solver::Interval{9.5e-6, 10.4e-6};
  CHECK(f.verdict() == Verdict::beyond);
  f.band_b = solver::Interval{10.3e-6, 11.5e-6};
  CHECK(f.verdict() == Verdict::within);
  f.b = std::nullopt;
  CHECK(f.verdict() == Verdict::plain);
  f.a = std::nullopt;
  CHECK(f.verdict() == Verdict::alike);
}

TEST_CASE("the table and the numbers of a comparison say the same",
          "[compare]") {
  solver::Result one = synthetic_result(), two = synthetic_result();
  one.used.title = "One, \"quoted\"";
  for (auto& p : two.parts[0].surface) p.thickness *= 1.5;
  two.parts[0].thickness.value.mean *= 1.5;
  const KeptResult a = kept(one), b = kept(two, "b-out");
  const Comparison c = compared(a, b);
  const auto words = io::comparison_words(a, b, c);
  const auto json = nlohmann::json::parse(
      io::comparison_json(a, b, c, words, {{"compare.csv", 5}}));
  CHECK(json["schema"] == 1);
  CHECK(json["kind"] == "results");
  CHECK(json["a"]["title"] == "One, \"quoted\"");
  CHECK(json["b"]["folder"] == "b-out");
  CHECK(json["files"][0]["bytes"] == 5);
  CHECK(json["figures"].size() == c.figures.size());
  CHECK(json["parts"][0]["most_gained"]["difference_percent"].get<double>() ==
        Approx(50).epsilon(1e-4));
  CHECK(json["parts"][0]["most_lost"].is_null());
  std::istringstream rows(io::comparison_csv(a, c));
  std::string line;
  std::getline(rows, line);
  CHECK(line.find("difference_percent") != std::string::npos);
  std::size_t count = 0;
  while (std::getline(rows, line)) {
    ++count;
    CHECK(std::count(line.begin(), line.end(), ',') == 12);
    CHECK_THAT(line,
               Contains(",50,") || Contains(",50.0") || Contains(",49.9"));
  }
  CHECK(count == a.result.parts[0].surface.size());
}

TEST_CASE("a comparison that is no number is not written", "[compare]") {
  const KeptResult a = bar(4);
  KeptResult b = bar(4, "b-out");
  Comparison c = compared(a, b);
  c.parts[0].thickness(3) = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_AS(io::comparison_csv(a, c), NoResultError);
}
