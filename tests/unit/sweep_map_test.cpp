// Maps of a sweep: one figure over two keys.
#include "viz/sweep_map.hpp"
#include "tests/unit/picture_checks.hpp"
#include "tests/unit/svg_reading.hpp"
#include "tests/unit/sweep_samples.hpp"
#include "viz/palette.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

using namespace thinspot;
using namespace thinspot::tests;

namespace {

double luminance_of(const std::string& hex) {
  const auto part = [&](std::size_t at) {
    return std::stoi(hex.substr(at, 2), nullptr, 16) / 255.0;
  };
  return viz::luminance({part(1), part(3), part(5)});
}

std::string map_of(const viz::SweepMap& panel) {
  return viz::sweep_map(thinnest_spot(), {panel}, "Token");
}

}  // namespace

TEST_CASE("each point has a cell that tells its figure") {
  const std::string svg = map_of(slope(gaps(7), currents(4)));
  check_sweep_picture(svg, 30);
  CHECK(paths_told(svg, " at anode.sheet.gap").size() == 28);
  CHECK(paths_told(svg,
                   "5\u00A0\u00B5m at anode.sheet.gap =\u00A0"
                   "13\u00A0mm, supply.current =\u00A0"
                   "0.3\u00A0"
                   "A")
            .size() == 1);
  CHECK(says(svg, "anode.sheet.gap (mm)"));
  CHECK(says(svg, "supply.current (A)"));
  CHECK(says(svg, "thinnest significant spot (\u00B5m)"));
  // Here there is room for the number in each cell too.
  const auto texts = drawn_texts(svg);
  CHECK(std::count_if(texts.begin(), texts.end(),
                      [](const DrawnText& t) { return t.text == "6"; }) >= 4);
}

TEST_CASE("more is darker, and the upper row is the larger current") {
  const std::string svg = map_of(slope(gaps(12), currents(1)));
  const auto cells = paths_told(svg, " at ");
  REQUIRE(cells.size() == 12);
  for (std::size_t k = 1; k < cells.size(); ++k)
    CHECK(luminance_of(cells[k].fill) < luminance_of(cells[k - 1].fill));
  const std::string tall = map_of(slope(gaps(1), currents(5)));
  const auto rows = paths_told(tall, " at ");
  REQUIRE(rows.size() == 5);
  const auto top = [](const DrawnPath& path) {
    return std::stod(path.d.substr(path.d.find(' ') + 1));
  };
  for (std::size_t k = 1; k < rows.size(); ++k)
    CHECK(top(rows[k]) < top(rows[k - 1]));
}

TEST_CASE("a point without a result is hatched and told in the legend") {
  viz::SweepMap panel = slope(gaps(6), currents(3));
  panel.values[2] = no_result();
  panel.values[9] = std::numeric_limits<double>::infinity();
  panel.values[10] = -1e300;
  const std::string svg = map_of(panel);
  check_sweep_picture(svg, 20);
  const auto without = paths_told(svg, "no result at");
  REQUIRE(without.size() == 3);
  for (const DrawnPath& cell : without) CHECK(cell.fill.find("url(#") == 0);
  CHECK(says(svg, "no result"));
  CHECK_FALSE(says(map_of(slope(gaps(6), currents(3))), "no result"));
}

TEST_CASE("no point has a result") {
  viz::SweepMap panel = slope(gaps(6), currents(3));
  panel.values.assign(panel.values.size(), no_result());
  const std::string svg = map_of(panel);
  check_sweep_picture(svg, 8);
  CHECK(says(svg, "no point has a result"));
  CHECK_FALSE(says(svg, "best"));
  CHECK_FALSE(says(svg, "target"));
}

TEST_CASE("the target's border is drawn and counted") {
  const std::string svg = map_of(slope(gaps(8), currents(8)));
  check_sweep_picture(svg, 20);
  // Column plus row is at least ten in 4 + 3 + 2 + 1 + ... = 15 cells.
  CHECK(says(svg, "met on the side of the ticks; 15 of 64"));
  CHECK(says(svg, "target"));
  viz::SweptFigure figure = thinnest_spot();
  const auto with = [&](double wanted, viz::Better better) {
    figure.wanted = wanted;
    figure.better = better;
    return viz::sweep_map(figure, {slope(gaps(8), currents(8))}, "Token");
  };
  CHECK(says(with(0, viz::Better::more), "met by all points"));
  CHECK(says(with(20, viz::Better::more), "met by no point"));
  CHECK(says(with(2, viz::Better::less), "6 of 64"));
  CHECK_FALSE(says(with(2, viz::Better::neither), "ticks"));
  CHECK_FALSE(says(with(2, viz::Better::neither), "best"));
}

TEST_CASE("what meets the target here and there has no border") {
  const std::string svg =
      map_of(grid(gaps(40), currents(40), [](std::size_t x, std::size_t y) {
        return (x * 7 + y * 13) % 3 == 0 ? 12.0 : 3.0;
      }));
  check_sweep_picture(svg, 15);
  CHECK(says(svg, "scattered for a border"));
}

TEST_CASE("the best point is marked and told") {
  const auto hill = [](std::size_t x, std::size_t y) {
    return 20 - std::abs(static_cast<double>(x) - 2) -
           std::abs(static_cast<double>(y) - 1);
  };
  const std::string svg = map_of(grid(gaps(5), currents(4), hill));
  CHECK(says(svg,
             "best: 20\u00A0\u00B5m at anode.sheet.gap =\u00A0"
             "12\u00A0mm"));
  // Where all are alike none is the best.
  const auto flat = [](std::size_t, std::size_t) { return 3.0; };
  const std::string alike = map_of(grid(gaps(5), currents(4), flat));
  check_sweep_picture(alike, 15);
  CHECK(says(alike, "all alike: 3"));
  CHECK_FALSE(says(alike, "best"));
}

TEST_CASE("a large grid is drawn with fewer cells and says so") {
  const std::string svg = map_of(slope(gaps(1000), currents(500)));
  check_sweep_picture(svg, 15);
  CHECK(svg.size() < 300'000);
  CHECK(says(svg, "each cell is the mean of up to 9 \u00D7 5"));
  CHECK(paths_told(svg, " at ").empty());
  // The best point is one of all, not a mean.
  CHECK(says(svg,
             "best: 1500\u00A0\u00B5m at anode.sheet.gap =\u00A0"
             "1010\u00A0mm"));
}

TEST_CASE("no hairline between cells: neighbours share their edges") {
  const std::string svg = map_of(slope(gaps(31), currents(7)));
  std::set<std::string> ends, starts;
  for (const DrawnPath& cell : paths_told(svg, " at ")) {
    starts.insert(cell.d.substr(1, cell.d.find(' ') - 1));
    const auto h = cell.d.find('H');
    ends.insert(cell.d.substr(h + 1, cell.d.find('V') - h - 1));
  }
  REQUIRE(starts.size() == 31);
  std::set<std::string> both;
  std::set_intersection(starts.begin(), starts.end(), ends.begin(), ends.end(),
                        std::inserter(both, both.end()));
  CHECK(both.size() == 30);
  CHECK(svg.find("shape-rendering=\"crispEdges\"") != std::string::npos);
}

TEST_CASE("up to nine grids have one scale of colours") {
  for (const std::size_t count : {2, 3, 4, 9, 12}) {
    CAPTURE(count);
    std::vector<viz::SweepMap> panels;
    for (std::size_t k = 0; k < count; ++k) {
      panels.push_back(
          grid(gaps(5), currents(3), [&](std::size_t x, std::size_t y) {
            return static_cast<double>(x + y + k % 9);
          }));
      panels.back().where =
          "solution.conductivity = " + std::to_string(12 + k) + " S/m";
    }
    const std::string svg = viz::sweep_map(thinnest_spot(), panels, "Token");
    check_sweep_picture(svg, 15);
    CHECK(says(svg, "12 S/m"));
    CHECK(says(svg, "a grid for each solution.conductivity"));
    CHECK(says(svg, "and 3 more grids") == (count == 12));
    CHECK(paths_told(svg, " at ").size() ==
          15 * std::min<std::size_t>(9, count));
    std::set<std::string> fills;
    for (const DrawnPath& cell : paths_told(svg, "5\u00A0\u00B5m at "))
      if (cell.title.rfind("5", 0) == 0) fills.insert(cell.fill);
    CHECK(fills.size() == 1);
  }
}

TEST_CASE("grids whose settings do not fit above them are numbered") {
  std::vector<viz::SweepMap> panels;
  for (int k = 0; k < 3; ++k) {
    panels.push_back(slope(gaps(5), currents(3)));
    panels.back().where = "solution.conductivity = 16 S/m, step.1.duration = " +
                          std::to_string(20 + k) + " min";
  }
  const std::string svg = viz::sweep_map(thinnest_spot(), panels, "Token");
  check_sweep_picture(svg, 15);
  CHECK(says(svg, "3: solution.conductivity = 16 S/m"));
  CHECK(says(svg, "22 min"));
  CHECK_FALSE(says(svg, "\u2026"));
}

TEST_CASE("maps of any form are sound") {
  const std::vector<std::string> words = {
      "inert", "soluble", "two sheets, facing each other across the tank"};
  std::vector<std::string> many(40, "a word of some length");
  for (const auto& x :
       {gaps(1), gaps(2), gaps(9), gaps(31), worded(words), worded(many)})
    for (const auto& y : {currents(1), currents(2), currents(13), worded(words),
                          worded(many)}) {
      CAPTURE(x.name, x.values.size(), y.name, y.values.size());
      check_sweep_picture(map_of(slope(x, y)), 8);
    }
}

TEST_CASE("values of every size are drawn with numbers that are numbers") {
  for (const double size : {-1e90, -5.0, 0.0, 1e-7, 1.0, 1e9, 1e90})
    for (const double step : {0.0, 1e-12, 0.5, 1000.0}) {
      CAPTURE(size, step);
      check_sweep_picture(
          map_of(grid(gaps(4), currents(3),
                      [&](std::size_t x, std::size_t y) {
                        return size + step * static_cast<double>(x * y);
                      })),
          8);
    }
}

TEST_CASE("names that look like markup stay text, long ones are cut") {
  viz::SweepMap panel = slope(gaps(6), currents(3));
  panel.x.name = "</svg><script>alert(1)</script> & \"so\" on";
  panel.y.name = "<b>" + std::string(300, 'm') + "</b>";
  panel.where = "<img src=x>";
  const std::string svg = viz::sweep_map(thinnest_spot(), {panel, panel},
                                         "<i>a</i> " + std::string(400, 'x'));
  check_sweep_picture(svg, 8);
  for (const char* tag : {"<script", "<b>", "<img", "<i>"})
    CHECK(svg.find(tag) == std::string::npos);
}

TEST_CASE("nothing computed makes a picture that says so") {
  const std::string none = viz::sweep_map(thinnest_spot(), {}, "Token");
  check_sweep_picture(none, 2);
  CHECK(says(none, "No point was computed."));
  check_sweep_picture(map_of({gaps(0), currents(3), {}, {}}), 2);
}
