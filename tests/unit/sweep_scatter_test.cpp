// Samples of a sweep: one figure against each key.
#include "viz/sweep_scatter.hpp"
#include "tests/unit/picture_checks.hpp"
#include "tests/unit/svg_reading.hpp"
#include "tests/unit/sweep_samples.hpp"

#include <catch2/catch.hpp>

#include <random>

using namespace thinspot;
using namespace thinspot::tests;

namespace {

struct Samples {
  std::vector<viz::SweptKey> keys;
  std::vector<std::vector<double>> at;
  std::vector<double> values;
  std::string drawn() const {
    return viz::sweep_scatter(thinnest_spot(), keys, at, values, "Token");
  }
};

/// Keys "key 0", "key 1" ... between 0 and 1 by lot; the figure is `main`
/// times the last of them and a little of the first.
Samples samples(std::size_t keys, std::size_t points, double main = 10) {
  std::mt19937 lot(4);
  std::uniform_real_distribution<double> share(0, 1);
  Samples s;
  s.at.resize(keys);
  for (std::size_t k = 0; k < keys; ++k)
    s.keys.push_back({"key " + std::to_string(k), "mm", {}, {}, false});
  for (std::size_t p = 0; p < points; ++p) {
    for (auto& at : s.at) at.push_back(share(lot));
    s.values.push_back(5 + main * s.at.back()[p] + s.at.front()[p]);
  }
  return s;
}

long dots_in(const std::string& svg) {
  long count = 0;
  for (std::size_t at = svg.find("h0"); at != std::string::npos;
       at = svg.find("h0", at + 1))
    ++count;
  return count;
}

viz::TextBox place_of(const std::string& svg, const std::string& text) {
  for (const DrawnText& t : drawn_texts(svg))
    if (t.text == text) return t.box;
  FAIL("no text \"" << text << '"');
  return {};
}

}  // namespace

TEST_CASE("the key that explains most comes first, with its share") {
  const std::string svg = samples(4, 400).drawn();
  check_sweep_picture(svg, 25);
  const viz::TextBox last = place_of(svg, "key 3 (mm)");
  for (const char* other : {"key 0 (mm)", "key 1 (mm)", "key 2 (mm)"}) {
    const viz::TextBox box = place_of(svg, other);
    CHECK(
        (box.top > last.top || (box.top == last.top && box.left > last.left)));
  }
  // Of 10 u + v, u and v even over 0 .. 1, u makes 100 / 101 of the variance;
  // bins of a twentieth lose a 400th of it.
  CHECK(says(svg, "explains 99 %"));
  CHECK(says(svg, "share of the figure's variance"));
  CHECK(says(svg, "median"));
}

TEST_CASE("many points: an even pick of dots, crosses for what has none") {
  Samples s = samples(2, 20000);
  for (std::size_t p = 0; p < s.values.size(); p += 50)
    s.values[p] = no_result();
  const std::string svg = s.drawn();
  check_sweep_picture(svg, 15);
  CHECK(dots_in(svg) == 2 * 1500 + 1);  // in both panels and the legend
  CHECK(says(svg, "1500 of 19600 are drawn, evenly picked"));
  CHECK(says(svg, "no result: 400 of 20000 points"));
  const std::string few = samples(2, 200).drawn();
  CHECK(dots_in(few) == 2 * 200 + 1);
  CHECK_FALSE(says(few, "evenly picked"));
}

TEST_CASE("a key of words has a median for each") {
  Samples s = samples(2, 300);
  s.keys[1] = worded({"inert", "soluble", "a mesh of fine wire"});
  for (std::size_t p = 0; p < 300; ++p) {
    s.at[1][p] = static_cast<double>(p % 3);
    s.values[p] = static_cast<double>(p % 3 == 1 ? 12 : 4) + s.at[0][p];
  }
  const std::string svg = s.drawn();
  check_sweep_picture(svg, 15);
  CHECK(says(svg, "soluble"));
  CHECK(place_of(svg, "anode.kind").left < place_of(svg, "key 0 (mm)").left);
}

TEST_CASE("at most eight keys, the rest counted") {
  const std::string svg = samples(11, 300).drawn();
  check_sweep_picture(svg, 40);
  CHECK(says(svg, "key 10 (mm)"));
  CHECK(says(svg, "and 3 more keys, not drawn"));
}

TEST_CASE("samples of any form are sound") {
  for (const std::size_t keys : {1, 2, 3, 8})
    for (const std::size_t points : {1, 2, 3, 9, 60}) {
      CAPTURE(keys, points);
      Samples s = samples(keys, points);
      s.keys[0].by_factor = true;
      s.keys[0].name = "<b>" + std::string(200, 'w') + "</b> & so on";
      const std::string svg = s.drawn();
      check_sweep_picture(svg, 6);
      CHECK(svg.find("<b>") == std::string::npos);
      s.values.assign(points, 7);
      check_sweep_picture(s.drawn(), 6);
      s.at[0].assign(points, 3);  // a key that never moved
      check_sweep_picture(s.drawn(), 6);
    }
  for (const double size : {-1e90, -5.0, 1e-7, 1e9, 1e90}) {
    Samples s = samples(2, 40);
    for (double& value : s.values) value *= size;
    check_sweep_picture(s.drawn(), 6);
  }
}

TEST_CASE("samples without a result, and none at all") {
  Samples s = samples(3, 30);
  s.values.assign(30, no_result());
  const std::string svg = s.drawn();
  check_sweep_picture(svg, 8);
  CHECK(says(svg, "no point has a result"));
  CHECK(dots_in(svg) == 0);
  CHECK(says(samples(3, 0).drawn(), "No point was computed."));
  CHECK(says(Samples{}.drawn(), "No point was computed."));
  s.at[1].resize(4);  // shorter than it should be: those points are left out
  check_sweep_picture(s.drawn(), 6);
}
