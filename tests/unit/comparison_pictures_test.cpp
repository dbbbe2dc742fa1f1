// Pictures and page of a comparison.

#include "viz/comparison_chart.hpp"

#include "tests/unit/kept_samples.hpp"
#include "tests/unit/page_checks.hpp"
#include "tests/unit/picture_checks.hpp"
#include "tests/unit/svg_reading.hpp"
#include "tests/unit/synthetic_result.hpp"
#include "viz/comparison_page.hpp"
#include "viz/readings_chart.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace thinspot;
using namespace thinspot::tests;
using solver::KeptResult;

namespace {

/// As it is, but thicker towards one end and thinner towards the other.
KeptResult tilted(const Synthetic& wanted) {
  solver::Result r = synthetic_result(wanted);
  r.used.title += ", tilted";
  for (auto& part : r.parts)
    for (auto& p : part.surface)
      p.thickness *= 1 + 0.3 * std::sin(200 * p.at.y());
  return kept(r, "b-out");
}

}  // namespace

TEST_CASE("every picture of a comparison is sound", "[compare]") {
  for (const HardCase& hard : hard_cases()) {
    DYNAMIC_SECTION(hard.name) {
      const KeptResult a = kept(synthetic_result(hard.wanted));
      const KeptResult b = tilted(hard.wanted);
      check_picture(viz::comparison_chart(a, b, solver::compared(a, b)));
      check_picture(viz::comparison_chart(a, a, solver::compared(a, a)));
    }
  }
}

TEST_CASE("the picture names both results and what they differ by",
          "[compare]") {
  const KeptResult a = kept(synthetic_result()), b = tilted({});
  const auto c = solver::compared(a, b);
  const std::string svg = viz::comparison_chart(a, b, c);
  CHECK(says(svg, "A: a-out"));
  CHECK(says(svg, "B: b-out"));
  CHECK(says(svg, "most gained"));
  CHECK(says(svg, "most lost"));
  CHECK(says(svg, "B less A"));
  CHECK_FALSE(says(svg, "95 % bands"));
  const std::string same = viz::comparison_chart(a, a, solver::compared(a, a));
  CHECK(says(same, "no difference"));
}

TEST_CASE("bands are drawn where both have them", "[compare]") {
  KeptResult a = kept(synthetic_result()), b = tilted({});
  for (KeptResult* k : {&a, &b}) {
    for (auto& p : k->result.parts[0].surface)
      p.thickness_band = {0.9 * p.thickness, 1.1 * p.thickness};
  }
  const std::string svg = viz::comparison_chart(a, b, solver::compared(a, b));
  check_picture(svg);
  CHECK(says(svg, "95 % bands"));
}

TEST_CASE("readings are drawn where they were taken", "[compare]") {
  const KeptResult a = kept(synthetic_result());
  using Of = solver::Reading::Of;
  const solver::Reading voltage =
      reading(Of::voltage, 1.1 * a.result.cell.voltage, 0.02);
  solver::Reading spot = reading(Of::thickness, 15e-6, 1e-6);
  spot.where = solver::Reading::Where::point;
  spot.point = a.result.parts[0].surface[5].at;
  std::vector<std::string> names{"Voltage", "A <place> & \"more\""};
  const std::string svg = viz::readings_chart(
      a, solver::read_against(a, {voltage, spot}, "r.csv"), names);
  check_picture(svg);
  CHECK(says(svg, "read, with its own"));
  CHECK(says(svg, "A <place>"));
  // Without a place there is no curve.
  const std::string list = viz::readings_chart(
      a, solver::read_against(a, {voltage}, "r.csv"), {"Voltage"});
  check_picture(list, 8);
  CHECK_FALSE(says(list, "read, with its own"));
  // Very many, and far off.
  std::vector<solver::Reading> many(300, spot);
  for (std::size_t k = 0; k < many.size(); ++k)
    many[k].value = 1e-6 * static_cast<double>(k + 1);
  const std::string full =
      viz::readings_chart(a, solver::read_against(a, many, "r.csv"),
                          std::vector<std::string>(300, std::string(300, 'W')));
  CHECK(says(full, "and 260 more readings"));
  CHECK(fault_in_markup(full) == "");
  CHECK(full.size() < 400'000);
}

TEST_CASE("a comparison's page stands alone", "[compare]") {
  const std::string page = viz::comparison_page(
      "{\"a\":{\"title\":\"</script><script>alert(1)</script> "
      "@@PICTURE@@\"}}",
      "<svg id=\"c\"><title>t</title></svg>");
  check_stands_alone(page);
  CHECK(count(page, "<svg id=\"c\">") == 1);
  CHECK(data_in(page, "comparison") ==
        "{\"a\":{\"title\":\"\\u003c/script\\u003e\\u003cscript\\u003ealert(1)"
        "\\u003c/script\\u003e @@PICTURE@@\"}}");
}
