#include "viz/fit_page.hpp"

#include "tests/unit/page_checks.hpp"
#include "tests/unit/picture_checks.hpp"
#include "viz/residuals_chart.hpp"

#include <catch2/catch.hpp>

using namespace thinspot;
using namespace thinspot::tests;

namespace {

std::vector<viz::ResidualRow> rows(std::size_t count) {
  std::vector<viz::ResidualRow> all;
  for (std::size_t k = 0; k < count; ++k)
    all.push_back({"voltage at 0." + std::to_string(k) + " A",
                   "read 0.41 V ± 0.01; 0.3 V before, 0.412 V now",
                   static_cast<double>(k) - 3, 0.3, false});
  return all;
}

}  // namespace

TEST_CASE("readings as a picture") {
  solver::Case c;
  c.title = "A bar <in> a tank";
  SECTION("a few") {
    auto some = rows(4);
    some[2].outlier = true;
    some[2].now = 7;
    some[3].before = -40;
    const std::string svg = viz::residuals_chart(c, some);
    check_picture(svg);
    CHECK(says(svg, "voltage at 0.2 A"));
    CHECK(says(svg, "does not go with the others"));
    CHECK(says(svg, "by the fitted values"));
  }
  SECTION("more than a picture holds: those farthest off") {
    auto many = rows(60);
    many[55].now = 3;
    const std::string svg = viz::residuals_chart(c, many);
    check_picture(svg);
    CHECK(says(svg, "voltage at 0.55 A"));
    CHECK(says(svg, "and 20 readings nearer to the line"));
    CHECK_FALSE(says(svg, "voltage at 0.59 A"));
  }
  SECTION("long words") {
    auto some = rows(1);
    some[0].name =
        "voltage at 0.33 A, anode.left sheet.gap=20 mm, "
        "anode.right sheet.gap=20 mm, step.1.duration=40 min";
    check_picture(viz::residuals_chart(c, some), 8);
  }
}

TEST_CASE("the page of a fit stands alone, without a script") {
  viz::FitPageText t;
  t.title = "A <b>bar</b> & a tank";
  t.set_up = "bar.toml: 3 readings";
  t.verdict = "By 3 readings: conductivity 17.3 S/m.";
  t.scatter = "The readings go together.";
  t.fragment = "[solution]\nconductivity = \"17.3 S/m\"  # <script>\n";
  t.fitted_file = "fitted.toml";
  t.values = {{"value", "in the case"}, {{"conductivity", "20 S/m"}}};
  t.readings = {{"reading", "read"}, {{"voltage @@REST@@", "0.41 V"}}};
  t.untold = {"slope and offset"};
  t.cautions = {"Sulfuric acid burns."};
  t.residuals = "<svg>drawn</svg>";
  const std::string page = viz::fit_page(t);
  check_stands_alone(page, false);
  CHECK(count(page, "A &lt;b&gt;bar&lt;/b&gt; &amp; a tank") == 2);
  CHECK(count(page,
              "[solution]\nconductivity = &quot;17.3 S/m&quot;  # "
              "&lt;script&gt;\n") == 1);
  CHECK(count(page, "voltage @@REST@@") == 1);
  CHECK(count(page, "Sulfuric acid burns.") == 1);
  CHECK(count(page, "What to read next") == 0);
  CHECK(count(page, "<svg") == 1);
  CHECK(count(page, "@@") == 2);
}
