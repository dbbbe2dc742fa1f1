// The page is one file, whole, and nothing put into it becomes markup.

#include "viz/report_page.hpp"

#include "tests/unit/page_checks.hpp"
#include "viz/palette.hpp"

#include <catch2/catch.hpp>

#include <regex>
#include <set>
#include <string>

using namespace thinspot;
using namespace thinspot::tests;

namespace {

const std::string section = "<svg id=\"s\"><title>section</title></svg>";
const std::string thickness = "<svg id=\"t\"><title>thickness</title></svg>";

}  // namespace

TEST_CASE("the page holds data and pictures once each") {
  const std::string page =
      viz::report_page("{\"title\":\"token\"}", "[]", {section, thickness});
  CHECK(data_in(page, "summary") == "{\"title\":\"token\"}");
  CHECK(count(page, section) == 1);
  CHECK(count(page, thickness) == 1);
  CHECK(page.find(section) < page.find(thickness));
  CHECK(count(page, "@@") == 0);
}

TEST_CASE("the card stands behind the verdict, and can be printed alone") {
  const std::string card = "<svg id=\"c\"><title>card</title></svg>";
  viz::PagePictures pictures{section, thickness};
  CHECK(count(viz::report_page("{}", "[]", pictures), "class=\"bench\"") == 0);
  pictures.card = card;
  const std::string page = viz::report_page("{}", "[]", pictures);
  CHECK(count(page, card) == 1);
  CHECK(page.find("id=\"verdict\"") < page.find(card));
  CHECK(page.find(card) < page.find(section));
  CHECK(count(page, "<figure class=\"bench\">") == 1);
  CHECK(count(page, "Print this card") == 1);
  CHECK(count(page, "@page card { size: A5; margin: 0; }") == 1);
  CHECK(count(page, "@@") == 0);
}

TEST_CASE("the data cannot end their script") {
  const std::string page = viz::report_page(
      "{\"title\":\"</script><script>alert(1)</script><!-- & \xE2\x80\xA8 "
      "\xE2\x80\xA9 \xE2\x80\x93\"}",
      "[]", {section, thickness});
  CHECK(data_in(page, "summary") ==
        "{\"title\":\"\\u003c/script\\u003e\\u003cscript\\u003ealert(1)"
        "\\u003c/script\\u003e\\u003c!-- \\u0026 \\u2028 \\u2029 "
        "\xE2\x80\x93\"}");
}

TEST_CASE("marks inside the data stay text") {
  const std::string page = viz::report_page(
      "{\"title\":\"@@SECTION@@ @@SUMMARY@@\"}", "[]", {section, thickness});
  CHECK(data_in(page, "summary") == "{\"title\":\"@@SECTION@@ @@SUMMARY@@\"}");
  CHECK(count(page, section) == 1);
}

/// The page but for the chart library, which names its home in a comment and
/// is not ours to read; a browser test watches what it does.
std::string without_library(std::string page) {
  const std::size_t from = page.find("/*!\n * Chart.js");
  REQUIRE(from != std::string::npos);
  return page.erase(from, page.find("</script>", from) - from);
}

TEST_CASE("the page needs no network and no other file") {
  const std::string page =
      without_library(viz::report_page("{}", "[]", {section, thickness}));
  check_stands_alone(page);
}

TEST_CASE("the model stands in the page as data") {
  const std::string page = viz::report_page(
      "{}", "[{\"why_not\":\"</script>\"}]", {section, thickness});
  CHECK(count(page, "[{\"why_not\":\"\\u003c/script\\u003e\"}]") == 1);
}

TEST_CASE("the page colours thickness as the pictures do") {
  const std::string page = viz::report_page("{}", "[]", {section, thickness});
  for (int k = 0; k <= 5; ++k) {
    INFO(k);
    CHECK(count(page, '"' + viz::hex(viz::ramp(k / 5.0)) + '"') == 1);
  }
}

TEST_CASE("no two things on the page share an id") {
  const std::string page = viz::report_page("{}", "[]", {section, thickness});
  std::set<std::string> ids;
  const std::regex pattern(" id=\"([^\"]+)\"");
  for (std::sregex_iterator at(page.begin(), page.end(), pattern), end;
       at != end; ++at) {
    INFO((*at)[1]);
    CHECK(ids.insert((*at)[1]).second);
  }
  CHECK(ids.size() > 5);
}
