#include "tests/unit/picture_checks.hpp"

#include "tests/unit/svg_reading.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <algorithm>
#include <regex>

namespace thinspot::tests {

namespace {

/// Every text on the page, and none on another.
void check_texts(const std::string& svg, std::size_t least) {
  const std::vector<DrawnText> texts = drawn_texts(svg);
  REQUIRE(texts.size() >= least);
  const viz::TextBox page = view_box(svg);
  for (std::size_t a = 0; a < texts.size(); ++a) {
    INFO('"' << texts[a].text << '"');
    CHECK(texts[a].box.left >= page.left);
    CHECK(texts[a].box.right <= page.right);
    CHECK(texts[a].box.top >= page.top);
    CHECK(texts[a].box.bottom <= page.bottom);
    for (std::size_t b = a + 1; b < texts.size(); ++b) {
      INFO("and \"" << texts[b].text << '"');
      CHECK_FALSE(viz::overlap(texts[a].box, texts[b].box));
    }
  }
}

void check_sound(const std::string& svg, std::size_t least = 11) {
  CHECK(svg.size() < 400'000);
  CHECK(fault_in_markup(svg) == "");
  CHECK(svg.find("nan") == std::string::npos);
  CHECK(svg.find("inf") == std::string::npos);
  CHECK(svg.find("<title") != std::string::npos);
  // No coordinate with more than two decimals.
  CHECK_FALSE(
      std::regex_search(svg, std::regex("[ \"MLA][0-9]+\\.[0-9]{3}[^<>]*/>")));
  check_texts(svg, least);
}

}  // namespace

bool says(const std::string& svg, const std::string& words) {
  const auto texts = drawn_texts(svg);
  return std::any_of(texts.begin(), texts.end(), [&](const DrawnText& t) {
    return t.text.find(words) != std::string::npos;
  });
}

void check_picture(const std::string& svg, std::size_t least) {
  CHECK(svg.find("width=\"100%\"") != std::string::npos);
  check_sound(svg, least);
}

void check_sheet(const std::string& svg, double width, double height) {
  const std::string size =
      fmt::format("width=\"{}mm\" height=\"{}mm\"", width, height);
  CHECK(svg.find(size) != std::string::npos);
  const viz::TextBox page = view_box(svg);
  CHECK(page.height() / page.width() == Approx(height / width).epsilon(1e-4));
  check_sound(svg);
}

}  // namespace thinspot::tests
