// Curves of a sweep: one figure over one key.
#include "viz/sweep_curves.hpp"
#include "tests/unit/picture_checks.hpp"
#include "tests/unit/svg_reading.hpp"
#include "tests/unit/sweep_samples.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <limits>
#include <set>

using namespace thinspot;
using namespace thinspot::tests;

namespace {

std::vector<viz::SweepCurve> rising(std::size_t curves, std::size_t points) {
  std::vector<viz::SweepCurve> all;
  for (std::size_t c = 0; c < curves; ++c) {
    all.push_back({"supply.current = 0." + std::to_string(c + 1) + " A", {}});
    for (std::size_t k = 0; k < points; ++k)
      all.back().values.push_back(static_cast<double>(k * (c + 1)) / 4 + 2);
  }
  return all;
}

std::string curves_of(const viz::SweptKey& x,
                      const std::vector<viz::SweepCurve>& curves) {
  return viz::sweep_curves(thinnest_spot(), x, curves, "Token",
                           "solution.temperature = 25 degC");
}

/// Lines of a picture that are not filled and run over several points.
std::vector<DrawnPath> lines_of(const std::string& svg) {
  std::vector<DrawnPath> found;
  for (const DrawnPath& path : drawn_paths(svg))
    if (path.fill == "none" &&
        std::count(path.d.begin(), path.d.end(), 'L') > 1)
      found.push_back(path);
  return found;
}

}  // namespace

TEST_CASE("eight curves are told apart without colour, and named") {
  const std::string svg = curves_of(gaps(9), rising(8, 9));
  check_sweep_picture(svg, 30);
  const auto texts = drawn_texts(svg);
  for (int c = 1; c <= 8; ++c) {
    const std::string end = "0." + std::to_string(c) + " A";
    CAPTURE(end);
    CHECK(says(svg, "supply.current = " + end));
    CHECK(std::any_of(texts.begin(), texts.end(), [&](const DrawnText& t) {
      return t.text == end && t.bold;
    }));
  }
  // Dash and sign of no two curves are alike: the shape of a sign is told by
  // how many points its path has, and whether it is filled.
  std::set<std::string> looks;
  for (int c = 1; c <= 8; ++c) {
    const auto signs =
        paths_told(svg, "supply.current = 0." + std::to_string(c) + " A:");
    REQUIRE(signs.size() == 9);
    const std::string& d = signs[0].d;
    const double width =
        std::stod(d.substr(1)) - std::stod(d.substr(d.find_first_of("LA") + 1));
    looks.insert(std::to_string(std::count(d.begin(), d.end(), 'L')) +
                 (signs[0].fill == "#ffffff" ? " hollow " : " full ") +
                 std::to_string(std::lround(width)));
  }
  CHECK(looks.size() == 8);
  CHECK(says(svg, "target: at least 10"));
  CHECK(says(svg, "25 degC"));
}

TEST_CASE("a curve has gaps where there is no result, single points show") {
  auto curves = rising(1, 9);
  const double nan = no_result();
  curves[0].values = {
      2, 3, nan, 4, nan, 5, 6, 7, std::numeric_limits<double>::infinity()};
  const std::string svg = curves_of(gaps(9), curves);
  check_sweep_picture(svg, 12);
  CHECK(paths_told(svg, " at anode.sheet.gap").size() == 6);
  // Two stretches: 2-3 and 5-6-7.
  const auto lines = lines_of(svg);
  REQUIRE_FALSE(lines.empty());
  CHECK(std::count(lines[0].d.begin(), lines[0].d.end(), 'M') == 2);
  CHECK(std::count(lines[0].d.begin(), lines[0].d.end(), 'L') == 3);
  CHECK(says(svg, "no result"));
}

TEST_CASE("each stretch of a dense curve has a sign") {
  auto curves = rising(1, 400);
  for (std::size_t k = 0; k < 400; ++k)
    if (k % 3 == 0) curves[0].values[k] = no_result();
  const std::string svg = curves_of(gaps(400), curves);
  CHECK(paths_told(svg, " at anode.sheet.gap").size() == 133);
  const std::string whole = curves_of(gaps(400), rising(1, 400));
  check_sweep_picture(whole, 12);
  CHECK(paths_told(whole, " at anode.sheet.gap").size() < 30);
}

TEST_CASE("over words there are points without a line") {
  const std::string svg =
      curves_of(worded({"inert", "soluble", "ring"}), rising(2, 3));
  check_sweep_picture(svg, 10);
  CHECK(paths_told(svg, " at anode.kind").size() == 6);
  CHECK(lines_of(svg).empty());
  CHECK(says(svg, "soluble"));
}

TEST_CASE("more than eight curves are counted, the only one needs no name") {
  CHECK(says(curves_of(gaps(5), rising(9, 5)), "and 1 more curve, not drawn"));
  auto one = rising(1, 5);
  one[0].name.clear();
  const std::string svg = curves_of(gaps(5), one);
  check_sweep_picture(svg, 10);
  CHECK_FALSE(says(svg, "supply.current"));
}

TEST_CASE("a target far off is told in words") {
  viz::SweptFigure figure = thinnest_spot();
  const auto with = [&](double wanted) {
    figure.wanted = wanted;
    return viz::sweep_curves(figure, gaps(5), rising(1, 5), "Token", "");
  };
  CHECK(says(with(1e6), "above all that is drawn"));
  CHECK(says(with(-1e6), "below all that is drawn"));
  CHECK_FALSE(says(with(3), "that is drawn"));
}

TEST_CASE("curves of any form are sound") {
  const std::vector<std::string> words = {
      "inert", "soluble", "two sheets, facing each other across the tank"};
  for (const double size : {-1e90, -5.0, 0.0, 1e-7, 10.0, 1e9, 1e90})
    for (const std::size_t points : {1, 2, 31, 500}) {
      CAPTURE(size, points);
      auto curves = rising(3, points);
      for (auto& curve : curves)
        for (double& value : curve.values) value = size;
      curves[1].values.resize(points / 2);  // the rest has no result
      curves[2].name = std::string(200, 'w') + " <b> & so on";
      check_sweep_picture(curves_of(gaps(points), curves), 5);
    }
  check_sweep_picture(curves_of(worded(words), rising(3, 3)), 10);
  auto factor = gaps(20);
  factor.by_factor = true;
  check_sweep_picture(curves_of(factor, rising(3, 20)), 10);
}

TEST_CASE("curves without a result, and none at all") {
  auto curves = rising(2, 5);
  for (auto& curve : curves) curve.values.assign(5, no_result());
  const std::string svg = curves_of(gaps(5), curves);
  check_sweep_picture(svg, 8);
  CHECK(says(svg, "no point has a result"));
  CHECK(says(curves_of(gaps(5), {}), "No point was computed."));
  CHECK(says(curves_of(gaps(0), rising(1, 0)), "No point was computed."));
}
