// Numbers, texts, chains and labels: what the pictures are made of.

#include "tests/unit/svg_reading.hpp"
#include "viz/chains.hpp"
#include "viz/frame.hpp"
#include "viz/label_placer.hpp"
#include "viz/numbers.hpp"
#include "viz/svg.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace thinspot;
using viz::Point;

TEST_CASE("coordinates are short") {
  CHECK(viz::short_number(12) == "12");
  CHECK(viz::short_number(12.5) == "12.5");
  CHECK(viz::short_number(-0.001) == "0");
  CHECK(viz::short_number(1.0 / 3) == "0.33");
  CHECK(viz::short_number(100) == "100");
}

TEST_CASE("a coating of next to nothing is called so") {
  CHECK(viz::micrometre_text(8.849e-6, 2) == "8.8 \u00B5m");
  CHECK(viz::micrometre_text(2e-10, 3) == "under 0.01 \u00B5m");
}

TEST_CASE("scales step by 1, 2 or 5") {
  CHECK(viz::nice_step(100, 10) == Approx(10));
  CHECK(viz::nice_step(0.037, 5) == Approx(0.01));
  CHECK(viz::nice_step(43, 10) == Approx(5));
  CHECK(viz::nice_below(499) == Approx(200));
  CHECK(viz::nice_below(500) == Approx(500));
  CHECK(viz::nice_below(0.07) == Approx(0.05));
  const auto ticks = viz::ticks(-0.1, 0.3, 4);
  std::string labels;
  for (const auto& t : ticks) labels += t.label + " ";
  CHECK(labels == "-0.1 0 0.1 0.2 0.3 ");
  CHECK(viz::ticks(1, 1, 5).empty());
}

TEST_CASE("text is cleaned and escaped") {
  CHECK(viz::clean_text("a\tb\nc\x01") == "a b c ");
  CHECK(viz::clean_text("\xff\xc0\xaf") == "\uFFFD\uFFFD\uFFFD");
  CHECK(viz::clean_text("\xed\xa0\x80") == "\uFFFD\uFFFD\uFFFD");  // surrogate
  CHECK(viz::clean_text("\u00B5m \u4E2D \U0001F600") ==
        "\u00B5m \u4E2D \U0001F600");
  CHECK(viz::clean_text("cut \xE2\x82") == "cut \uFFFD\uFFFD");
  CHECK(viz::escaped("<a href=\"x\">&'") ==
        "&lt;a href=&quot;x&quot;&gt;&amp;&#39;");
}

TEST_CASE("text is measured, cut and broken") {
  const viz::TextStyle style{.size = 10};
  // Digits of DejaVu Sans are 0.636 of the size wide.
  CHECK(viz::text_width("12345", style) == Approx(31.8));
  CHECK(viz::text_width("\u00B5", style) >= 6.36);
  CHECK(viz::shortened("short", style, 100) == "short");
  const std::string cut = viz::shortened("a long text indeed", style, 60);
  CHECK(viz::text_width(cut, style) <= 60);
  CHECK(cut.size() > 5);
  const auto lines = viz::wrapped("one two three four five", style, 60);
  REQUIRE(lines.size() > 1);
  std::string joined;
  for (const auto& line : lines) {
    CHECK(viz::text_width(line, style) <= 60);
    joined += line + " ";
  }
  CHECK(joined == "one two three four five ");
  CHECK(viz::wrapped("a b c d e f g h i j k", style, 20, 3).size() == 3);
  const auto giant = viz::wrapped(std::string(50, 'W') + " end", style, 60);
  CHECK(giant.size() == 2);
  CHECK(viz::text_width(giant.front(), style) <= 60);
  CHECK(viz::wrapped("", style, 60).empty());
}

TEST_CASE("anchors put the box where the text is") {
  viz::TextStyle style{.size = 10};
  const double width = viz::text_width("abc", style);
  CHECK(viz::text_box({50, 20}, "abc", style).left == Approx(50));
  style.anchor = viz::Anchor::end;
  CHECK(viz::text_box({50, 20}, "abc", style).right == Approx(50));
  style.anchor = viz::Anchor::middle;
  CHECK(viz::text_box({50, 20}, "abc", style).left == Approx(50 - width / 2));
}

TEST_CASE("a picture is whole markup with the text inside") {
  viz::Svg svg("t", 100);
  svg.text({5, 20}, "<&> \"x\"", {});
  svg.circle({1, 2}, 3, {.fill = "#fff"});
  const std::string text = svg.finish(50, "<title>", "d & e");
  CHECK(tests::fault_in_markup(text) == "");
  const auto drawn = tests::drawn_texts(text);
  REQUIRE(drawn.size() == 1);
  CHECK(drawn[0].text == "<&> \"x\"");
  CHECK(tests::view_box(text).right == 100);
  CHECK(tests::view_box(text).bottom == 50);
}

TEST_CASE("half circles of an outline stay on their side of the page") {
  // From (1,0) to (-1,0) with the bulge of half a circle: counter-clockwise,
  // over (0,1); on the page y points down and the sweep flag is 0.
  const mesh::Outline top{
      {{{{1, 0}, {-1, 0}, 1, ""}, {{-1, 0}, {1, 0}, 0, ""}}}};
  const auto frame = viz::frame_at(0, 0, {{-2, -2}, {2, 2}}, 10);
  CHECK(viz::outline_path(top, frame).text() ==
        "M30 20A10 10 0 0 0 10 20L30 20Z");
  CHECK(viz::outline_path(top, frame, true).text() ==
        "M10 20A10 10 0 0 1 30 20L10 20Z");
}

TEST_CASE("chains lose what nobody sees and keep their ends") {
  std::vector<Point> chain;
  for (int k = 0; k <= 100; ++k) chain.emplace_back(k, 0.01 * (k % 2));
  CHECK(viz::simplified(chain, 0.1).size() == 2);
  CHECK(viz::simplified(chain, 0.001).size() > 50);
  const std::vector<Point> square{{0, 0}, {1, 0}, {2, 0}, {2, 2}, {0, 2}};
  const auto kept = viz::simplified(square, 0.1, true);
  CHECK(kept.size() == 4);
}

TEST_CASE("the rim of a patch of cells is one loop around it") {
  // Two triangles make a square; a third one apart.
  const auto edges = viz::rim({{0, 1, 2}, {0, 2, 3}, {10, 11, 12}});
  CHECK(edges.size() == 7);
  const auto loops = viz::closed_loops(edges);
  REQUIRE(loops.size() == 2);
  CHECK(std::max(loops[0].size(), loops[1].size()) == 4);
}

TEST_CASE("labels keep out of each other's way") {
  viz::LabelPlacer placer({0, 0, 100, 100});
  CHECK(placer.take({10, 10, 30, 20}));
  CHECK_FALSE(placer.take({20, 15, 40, 25}));
  CHECK(placer.take({30, 10, 50, 20}));  // touching is not overlapping
  CHECK_FALSE(placer.take({90, 90, 101, 95}));
}

TEST_CASE("labels of a column are spread apart in their order") {
  const auto spread = viz::spread_apart({50, 52, 51, 10}, 10, 0, 100);
  CHECK(spread[3] == Approx(10));
  CHECK(spread[2] - spread[0] >= 10 - 1e-9);
  CHECK(spread[1] - spread[2] >= 10 - 1e-9);
  const auto bottom = viz::spread_apart({99, 98}, 10, 0, 100);
  CHECK(bottom[0] <= 95 + 1e-9);
  CHECK(bottom[0] - bottom[1] >= 10 - 1e-9);
  const auto tight = viz::spread_apart({1, 2, 3, 4}, 10, 0, 20);
  CHECK(tight[3] <= 20);
  CHECK(tight[0] >= 0);
}
