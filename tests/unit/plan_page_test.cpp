// The page of a plan is one file, whole, and nothing put into it becomes
// markup.
#include "viz/plan_page.hpp"

#include "tests/unit/page_checks.hpp"
#include "tests/unit/plan_samples.hpp"
#include "tests/unit/svg_reading.hpp"
#include "viz/changes_chart.hpp"
#include "viz/page_pieces.hpp"
#include "viz/section_picture.hpp"
#include "viz/trade_off_chart.hpp"

#include <catch2/catch.hpp>

#include <regex>
#include <set>
#include <string>

using namespace thinspot;
using namespace thinspot::tests;

namespace {

/// Ids, as often as they stand in the page's markup; what its scripts say is
/// none.
std::vector<std::string> ids(std::string page) {
  page.resize(page.rfind("<script>"));
  static const std::regex pattern(" id=\"([^\"]*)\"");
  std::vector<std::string> found;
  for (std::sregex_iterator at(page.begin(), page.end(), pattern), end;
       at != end; ++at)
    found.push_back((*at)[1]);
  return found;
}

viz::PlanPictures pictures(const solver::Plan& plan) {
  viz::PlanPictures p;
  p.card = "<svg id=\"c\"><title>card</title></svg>";
  p.trade_off = viz::trade_off_chart(plan);
  p.changes = viz::changes_chart(plan);
  p.drawn_section = viz::section_picture(*plan.drawn.result);
  p.planned_section = viz::section_picture(*plan.set_ups.front().result);
  return p;
}

}  // namespace

TEST_CASE("a plan's page holds data and pictures once each, in their order") {
  const viz::PlanPictures p = pictures(plan_sample());
  const std::string page = viz::plan_page("{\"title\":\"token\"}", p);
  CHECK(data_in(page, "plan") == "{\"title\":\"token\"}");
  std::size_t last = 0;
  for (const std::string& piece :
       {p.card, std::string("Tank and part as drawn"), p.drawn_section,
        std::string("Tank and part as planned"), p.trade_off, p.changes}) {
    CHECK(count(page, piece) == 1);
    CHECK(page.find(piece) > last);
    last = page.find(piece);
  }
  CHECK(count(page, "Coating as") == 0);  // no picture, no figure
  CHECK(count(page, "@@") == 0);
  CHECK(count(page, "<figure class=\"bench\">") == 1);
  CHECK(count(page, "Print this card") == 1);
  CHECK(count(page, "@page card { size: A5; margin: 0; }") == 1);
}

TEST_CASE("no two things on a plan's page have one id") {
  const std::vector<std::string> all =
      ids(viz::plan_page("{}", pictures(plan_sample())));
  CHECK(all.size() > 20);
  CHECK(std::set(all.begin(), all.end()).size() == all.size());
}

TEST_CASE("a picture with other ids still names its own") {
  const std::string svg = viz::section_picture(*plan_sample().drawn.result);
  const std::string other = viz::with_ids(svg, "planned-");
  CHECK(fault_in_markup(other) == "");
  const auto known = ids(other + "<script>");
  const std::set<std::string> ours(known.begin(), known.end());
  static const std::regex used("\"url\\(#([^)]*)\\)\"");
  std::size_t references = 0;
  for (std::sregex_iterator at(other.begin(), other.end(), used), end;
       at != end; ++at, ++references)
    CHECK(ours.count((*at)[1]) == 1);
  CHECK(references > 3);
  CHECK(count(other,
              "aria-labelledby=\"planned-section-title "
              "planned-section-desc\"") == 1);
  // What a text says stays.
  CHECK(
      viz::with_ids("<g id=\"a\"><text> id=&quot; url(#a)</text></g>", "x-") ==
      "<g id=\"x-a\"><text> id=&quot; url(#a)</text></g>");
}

TEST_CASE("hostile words in a plan cannot end their script") {
  const std::string page = viz::plan_page(
      "{\"title\":\"</script><script>alert(1)</script><!-- & @@CARD@@ "
      "@@PLAN@@\"}",
      {});
  CHECK(data_in(page, "plan") ==
        "{\"title\":\"\\u003c/script\\u003e\\u003cscript\\u003ealert(1)"
        "\\u003c/script\\u003e\\u003c!-- \\u0026 @@CARD@@ @@PLAN@@\"}");
  CHECK(count(page, "<script>") == 1);
}

TEST_CASE("a plan's page needs no network and no other file") {
  const std::string page = viz::plan_page("{}", {});
  check_stands_alone(page);
}
