// The two pictures of made-up results, hard ones among them.

#include "tests/unit/picture_checks.hpp"
#include "tests/unit/svg_reading.hpp"
#include "tests/unit/synthetic_result.hpp"
#include "viz/section_picture.hpp"
#include "viz/thickness_chart.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <locale>
#include <regex>
#include <string>

using namespace thinspot;
using namespace thinspot::tests;

namespace {

struct CommaAndDots : std::numpunct<char> {
  char do_decimal_point() const override { return ','; }
  char do_thousands_sep() const override { return '.'; }
  std::string do_grouping() const override { return "\3"; }
};

}  // namespace

TEST_CASE("every picture is sound, light and free of overlapping words") {
  for (const HardCase& hard : hard_cases()) {
    DYNAMIC_SECTION("section: " << hard.name) {
      check_picture(viz::section_picture(synthetic_result(hard.wanted)));
    }
    DYNAMIC_SECTION("thickness: " << hard.name) {
      check_picture(viz::thickness_chart(synthetic_result(hard.wanted)));
    }
  }
}

TEST_CASE("a small part gets a close-up, a large one does not") {
  const auto has_close_up = [](mesh::Point size) {
    return says(viz::section_picture(synthetic_result({.part_size = size})),
                "Close-up");
  };
  CHECK(has_close_up({2.4e-3, 30e-3}));
  CHECK_FALSE(has_close_up({50e-3, 80e-3}));
}

TEST_CASE("the section names its solids and explains what it shows") {
  const std::string svg = viz::section_picture(
      synthetic_result({.anodes = {"sheet", "old anode"}}));
  CHECK(says(svg, "sheet (anode)"));
  CHECK(says(svg, "old anode"));
  CHECK_FALSE(says(svg, "old anode (anode)"));
  CHECK(says(svg, "part"));
  CHECK(says(svg, "target 10 \u00B5m"));
  CHECK(says(svg, "times too thick"));
  CHECK(says(svg, "not judged"));
  CHECK(says(svg, "lines of equal voltage"));
  CHECK(says(svg, "the wire that holds the part"));
  CHECK(says(svg, "mm"));
  CHECK(says(svg, "liquid level"));
  CHECK(std::regex_search(svg, std::regex(">0\\.[0-9]+ V</text>")));
}

TEST_CASE("a crowd of solids keeps its names") {
  const std::vector<std::string> names{
      "outer left", "outer right", "second left", "second right",
      "third left", "third right", "inner left",  "inner right"};
  const std::string svg =
      viz::section_picture(synthetic_result({.anodes = names}));
  for (const std::string& name : names) {
    INFO(name);
    CHECK(says(svg, name + " (anode)"));
  }
  CHECK(says(svg, "part"));
  CHECK_FALSE(says(svg, "without room"));
}

TEST_CASE("the band along the surface is a strip over the coating") {
  solver::Result result = synthetic_result();
  CHECK_FALSE(says(viz::thickness_chart(result), "the same at every place"));
  for (solver::PartResult& part : result.parts)
    for (solver::SurfacePoint& p : part.surface)
      p.thickness_band = {0.8 * p.thickness, 1.1 * p.thickness};
  const std::string svg = viz::thickness_chart(result);
  check_picture(svg);
  CHECK(says(svg, "the same at every place"));
  CHECK(svg.find("<g class=\"band\">") != std::string::npos);
}

TEST_CASE("thin and heavy spots are marked and said in both pictures") {
  const solver::Result result = synthetic_result({.spots = 3});
  const std::string section = viz::section_picture(result);
  const std::string chart = viz::thickness_chart(result);
  for (const std::string label : {"1", "2", "3"}) {
    INFO(label);
    const auto exactly = [&](const std::string& svg) {
      const auto texts = drawn_texts(svg);
      return std::count_if(texts.begin(), texts.end(), [&](const auto& t) {
        return t.bold && t.text == label;
      });
    };
    // Of either kind: at the part and in the legend.
    CHECK(exactly(section) == 4);
    CHECK(exactly(chart) == 2);
  }
  CHECK(says(section, "9.0 \u00B5m, middle of the"));
  CHECK(says(section, "21 \u00B5m, middle of the"));
}

TEST_CASE("an even coating has no spots worth a mark") {
  const std::string svg =
      viz::section_picture(synthetic_result({.swing = 0.01}));
  CHECK(says(svg, "Even: no thin or heavy"));
  CHECK_FALSE(says(svg, "Thin spots"));
}

TEST_CASE("the chart says least, mean, largest, target and limits") {
  const std::string svg = viz::thickness_chart(synthetic_result());
  CHECK(says(svg, "least 9.0 \u00B5m"));
  CHECK(says(svg, "(7.9 to 10)"));
  CHECK(says(svg, "mean 15 \u00B5m"));
  CHECK(says(svg, "largest 21 \u00B5m"));
  CHECK(says(svg, "target 10 \u00B5m"));
  CHECK(says(svg, "burns from 5"));
  CHECK(says(svg, "0.5 to 4"));
  CHECK(says(svg, "Thickness (\u00B5m)"));
  CHECK(says(svg, "Current density (A/dm\u00B2)"));
  for (const std::string face : {"left", "right", "upper edge", "lower edge"})
    CHECK(says(svg, face));
}

TEST_CASE("a target far above the curve does not flatten it") {
  const std::string svg =
      viz::thickness_chart(synthetic_result({.target = 1e-3}));
  CHECK(says(svg, "target 1000 \u00B5m"));
  CHECK(says(svg, "(not shown)"));
  CHECK_FALSE(says(svg, "600"));  // no such number on the axis
  CHECK(says(viz::section_picture(synthetic_result({.target = 1e-3})),
             "too far out"));
}

TEST_CASE("the title is the picture's name, escaped") {
  const std::string svg =
      viz::section_picture(synthetic_result({.title = "a <b> & \"c\""}));
  CHECK(svg.find("<title id=\"section-title\">a &lt;b&gt; &amp; &quot;c&quot;"
                 "</title>") != std::string::npos);
}

TEST_CASE("pictures are the same in every locale and every time") {
  const solver::Result result = synthetic_result();
  const std::string section = viz::section_picture(result);
  const std::string chart = viz::thickness_chart(result);
  CHECK(viz::section_picture(result) == section);
  const std::locale before = std::locale::global(
      std::locale(std::locale::classic(), new CommaAndDots));
  const std::string section_there = viz::section_picture(result);
  const std::string chart_there = viz::thickness_chart(result);
  std::locale::global(before);
  CHECK(section_there == section);
  CHECK(chart_there == chart);
}
