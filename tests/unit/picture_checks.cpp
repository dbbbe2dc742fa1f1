#include "tests/unit/picture_checks.hpp"

#include "tests/unit/svg_reading.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <algorithm>

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

/// The first number in a tag with more than two decimals; "" none. By hand, as
/// the stack of std::regex goes with what it passes over.
std::string first_long_coordinate(const std::string& svg) {
  const std::string digits = "0123456789", before = " \"MLA";
  for (std::size_t at = 0; (at = svg.find('.', at + 1)) != std::string::npos;) {
    const std::size_t first = svg.find_last_not_of(digits, at - 1);
    const std::size_t end = svg.find_first_not_of(digits, at + 1);
    if (first == std::string::npos || end == std::string::npos) continue;
    if (first + 1 == at || before.find(svg[first]) == std::string::npos)
      continue;
    const std::size_t close = svg.find_first_of("<>", end);
    if (end - at > 3 && close != std::string::npos &&
        svg.compare(close - 1, 2, "/>") == 0)
      return svg.substr(first + 1, end - first - 1);
  }
  return "";
}

void check_sound(const std::string& svg, std::size_t least = 11) {
  CHECK(svg.size() < 400'000);
  CHECK(fault_in_markup(svg) == "");
  CHECK(svg.find("nan") == std::string::npos);
  CHECK(svg.find("inf") == std::string::npos);
  CHECK(svg.find("<title") != std::string::npos);
  // No coordinate with more than two decimals.
  CHECK(first_long_coordinate(svg) == "");
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
