// What a map of a sweep is made of: cells, borders, bins, shares, words.
#include "viz/sweep_cells.hpp"
#include "tests/unit/sweep_samples.hpp"
#include "viz/axis_scale.hpp"
#include "viz/binned.hpp"
#include "viz/sweep_axis.hpp"
#include "viz/sweep_words.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace thinspot;
using namespace thinspot::tests;

TEST_CASE("points share cells where there are too many, by their mean") {
  // 5 x 3 points, at most 3 cells a side: two points across, one down.
  const viz::CellGrid grid = viz::cells_of(
      5, 3, {1, 3, 5, 7, 9, 2, no_result(), 4, 4, 8, 0, 0, 0, 0, no_result()},
      3);
  CHECK(grid.columns == 3);
  CHECK(grid.rows == 3);
  CHECK(grid.across == 2);
  CHECK(grid.down == 1);
  CHECK(grid.at(0, 0) == 2);
  CHECK(grid.at(1, 0) == 6);
  CHECK(grid.at(2, 0) == 9);  // the last column has one point a cell
  CHECK(grid.at(0, 1) == 2);  // of two points one has a result
  CHECK(std::isnan(grid.at(2, 2)));
}

TEST_CASE("no grid has more cells a side than it may") {
  for (const std::size_t points : {1, 119, 120, 121, 240, 241, 1000, 99999}) {
    CAPTURE(points);
    const viz::CellGrid grid =
        viz::cells_of(points, 1, std::vector<double>(points, 4), 120);
    CHECK(grid.columns <= 120);
    CHECK(grid.columns * grid.across >= points);
    for (const double value : grid.values) CHECK(value == 4);
  }
}

TEST_CASE("missing numbers are points without a result") {
  const viz::CellGrid grid = viz::cells_of(2, 2, {1}, 120);
  CHECK(grid.at(0, 0) == 1);
  CHECK(std::isnan(grid.at(1, 1)));
}

TEST_CASE("a border runs between what meets and what does not") {
  //  1 1 -      row 2 (- has no result)
  //  0 1 1      row 1
  //  0 0 0      row 0
  const viz::CellGrid grid =
      viz::cells_of(3, 3, {0, 0, 0, 0, 1, 1, 1, 1, no_result()}, 120);
  const auto borders =
      viz::borders_of(grid, [](double value) { return value > 0.5; });
  REQUIRE(borders.size() == 3);
  CHECK(borders[0].upright);
  CHECK(borders[0].line == 1);
  CHECK(borders[0].from == 1);
  CHECK(borders[0].to == 2);
  CHECK(borders[0].met_beyond);
  CHECK_FALSE(borders[1].upright);
  CHECK(borders[1].line == 1);
  CHECK(borders[1].from == 1);
  CHECK(borders[1].to == 3);  // two cells in one piece
  CHECK(borders[2].line == 2);
  CHECK(borders[2].from == 0);
  CHECK(borders[2].to == 1);
}

TEST_CASE("the share that a key explains, worked out by hand") {
  // Three groups of two about 0, 4 and 8, total mean 4:
  // within 6 x 1 = 6 by 3 degrees of freedom, 2; in all
  // 1 + 1 + 9 + 25 + 9 + 25, which is 70, by 5, 14. 1 - 2 / 14 = 6 / 7.
  const std::vector<double> at = {1, 1, 2, 2, 3, 3};
  const auto bins = viz::binned(at, {-1, 1, 3, 5, 7, 9});
  REQUIRE(bins.size() == 3);
  CHECK(bins[1].middle == 2);
  CHECK(bins[1].median() == 4);
  CHECK(bins[1].mean() == 4);
  REQUIRE(viz::explained_share(bins));
  CHECK(*viz::explained_share(bins) == Approx(6.0 / 7));
  // All that varies varies within: none, not less than none.
  CHECK(*viz::explained_share(viz::binned(at, {0, 8, 0, 8, 0, 8})) == 0);
  CHECK(*viz::explained_share(viz::binned(at, {1, 1, 5, 5, 2, 2})) == 1);
}

TEST_CASE("no share where there is none to tell") {
  const auto share = [](const std::vector<double>& at,
                        const std::vector<double>& values) {
    return viz::explained_share(viz::binned(at, values)).has_value();
  };
  CHECK_FALSE(share({}, {}));
  CHECK_FALSE(share({1, 2}, {3, 4}));
  CHECK_FALSE(share({1, 1, 2, 2}, {0.1 + 0.2, 0.3, 0.3, 0.3}));
  CHECK_FALSE(share({1, 1, 1, 1}, {1, 2, 3, 4}));
  CHECK_FALSE(share({1, 1, 2, 2}, std::vector<double>(4, no_result())));
}

TEST_CASE("bins have as good as equally many points and part no alike ones") {
  std::vector<double> at, values;
  for (int k = 0; k < 1000; ++k) {
    at.push_back(k < 500 ? 7 : k);
    values.push_back(k % 10 == 3 ? no_result() : k);
  }
  const auto bins = viz::binned(at, values);
  CHECK(bins.size() == 11);  // ten twentieths in one, ten more
  CHECK(bins[0].values.size() == 450);
  CHECK(bins[0].middle == 7);
  for (std::size_t k = 1; k < bins.size(); ++k)
    CHECK(std::abs(static_cast<double>(bins[k].values.size()) - 45) <= 1);
}

TEST_CASE("units and settings as a page writes them") {
  CHECK(viz::unit_words("um") == "\u00B5m");
  CHECK(viz::unit_words("A/dm2") == "A/dm\u00B2");
  CHECK(viz::unit_words("ohm cm2") == "ohm cm\u00B2");
  CHECK(viz::unit_words("umbrella") == "umbrella");
  CHECK(viz::with_unit(12.345, "um") == "12.3\u00A0\u00B5m");
  CHECK(viz::setting_words(gaps(3), 2) ==
        "anode.sheet.gap =\u00A0"
        "12\u00A0mm");
  CHECK(viz::setting_words(worded({"inert", "soluble"}), 1) ==
        "anode.kind =\u00A0soluble");
  CHECK(viz::common_start({"a = 1", "a = 2"}) == "a = ");
  CHECK(viz::common_start({"a = 1, b = 2", "a = 1, b = 3"}).empty());
  CHECK(viz::common_start({"a = 1", "b = 2"}).empty());
  CHECK(viz::common_start({"a = 1"}).empty());
  CHECK(viz::common_start({"", ""}).empty());
  CHECK(viz::more_words(1, "key") == "1 more key");
  CHECK(viz::more_words(2, "key") == "2 more keys");
}

TEST_CASE("which side of a target meets it, and which point is best") {
  viz::SweptFigure figure = thinnest_spot();
  const std::vector<double> values = {no_result(), 3, 12, 12,
                                      std::numeric_limits<double>::infinity()};
  CHECK(viz::meets(figure, 10));
  CHECK_FALSE(viz::meets(figure, 9.9));
  CHECK(viz::best_of(figure, values) == 2);
  CHECK(viz::target_words(figure) == "target: at least 10\u00A0\u00B5m");
  figure.better = viz::Better::less;
  CHECK(viz::meets(figure, 10));
  CHECK_FALSE(viz::meets(figure, 10.1));
  CHECK(viz::best_of(figure, values) == 1);
  figure.better = viz::Better::neither;
  CHECK(viz::best_of(figure, values) == values.size());
  CHECK(viz::range_words(figure, values) == "3 to 12\u00A0\u00B5m");
  CHECK(viz::range_words(figure, {5}) == "all 5\u00A0\u00B5m");
  CHECK(viz::range_words(figure, {no_result()}) == "no point has a result");
}

TEST_CASE("numbers along cells stand at their values") {
  const viz::SweepAxis axis(gaps(31), 0, 310, viz::SweepAxis::Form::cells);
  CHECK(axis.cell_size() == Approx(10));
  CHECK(axis.page(0) == Approx(5));
  CHECK(axis.edge(31) == Approx(310));
  REQUIRE(axis.marks().size() >= 4);
  for (const viz::Tick& mark : axis.marks())  // 10 mm in the first cell
    CHECK(mark.value == Approx(5 + 10 * (std::stod(mark.label) - 10)));
}

TEST_CASE("numbers along cells by factor, and unevenly spaced ones") {
  viz::SweptKey key{"solution.conductivity", "S/m", {}, {}, true};
  for (int k = 0; k <= 20; ++k) key.values.push_back(std::pow(10, 0.1 * k));
  const viz::SweepAxis axis(key, 0, 210, viz::SweepAxis::Form::cells);
  REQUIRE(axis.marks().size() >= 3);
  for (const viz::Tick& mark : axis.marks())
    CHECK(mark.value ==
          Approx(5 + 100 * std::log10(std::stod(mark.label))).margin(1e-6));
  viz::SweptKey few{"supply.current", "A", {0.2, 0.4, 0.8}, {}, false};
  const viz::SweepAxis each(few, 0, 300, viz::SweepAxis::Form::cells);
  REQUIRE(each.marks().size() == 3);
  CHECK(each.marks()[2].label == "0.8");
  CHECK(each.marks()[2].value == Approx(250));
}

TEST_CASE("words too long for an axis get letters") {
  using Form = viz::SweepAxis::Form;
  CHECK_FALSE(viz::SweepAxis(worded({"inert", "soluble"}), 0, 300, Form::cells)
                  .lettered());
  const viz::SweepAxis long_words(
      worded({"inert", "two sheets of copper on either side of the part"}), 0,
      120, Form::cells);
  CHECK(long_words.lettered());
  CHECK(long_words.marks()[1].label == "B");
  CHECK(long_words.letter_words()[0] == "A: inert");
}

TEST_CASE("a name is cut before its unit is") {
  const viz::TextStyle style{.size = 12};
  const std::string cut =
      viz::name_with_unit(std::string(90, 'w'), "um", style, 150);
  CHECK(cut.find("\u2026 (\u00B5m)") != std::string::npos);
  CHECK(viz::text_width(cut, style) <= 150);
  CHECK(viz::name_with_unit("gap", "mm", style, 150) == "gap (mm)");
}

TEST_CASE("a text is broken whole or not at all") {
  const viz::TextStyle style{.size = 12};
  CHECK(viz::wrapped_whole("one two", style, 30, 2) ==
        std::vector<std::string>{"one", "two"});
  CHECK(viz::wrapped_whole("one two three", style, 30, 2).empty());
  // Cut, with an ellipsis of as many bytes as what it stands for.
  const std::string word = "iiiiiiii";
  for (double width = 5; width < viz::text_width(word, style); ++width)
    CHECK(viz::wrapped_whole(word, style, width, 2).empty());
}

TEST_CASE("an axis for numbers of either sign") {
  const viz::AxisScale both = viz::around_any({-2, 2}, 0, 100, 8);
  CHECK_FALSE(both.by_factor);
  CHECK(both.page(0) == Approx(50));
  CHECK(both.low < -2);
  CHECK(viz::around_any({0, 100}, 0, 100, 8).low == 0);
  CHECK(viz::around_any({0, 0}, 0, 100, 8).high > 0);
  CHECK(viz::around_any({-3, -3}, 0, 100, 8).page(-3) == Approx(50));
  CHECK(viz::around_any({1, 100}, 0, 100, 8).by_factor);
}
