#include "tests/unit/page_checks.hpp"

#include <catch2/catch.hpp>

#include <regex>

namespace thinspot::tests {

std::size_t count(const std::string& text, const std::string& piece) {
  std::size_t n = 0;
  for (std::size_t at = text.find(piece); at != std::string::npos;
       at = text.find(piece, at + piece.size()))
    ++n;
  return n;
}

std::string data_in(const std::string& page, const std::string& id) {
  const std::string start =
      "<script type=\"application/json\" id=\"" + id + "\">";
  const std::size_t at = page.find(start);
  REQUIRE(at != std::string::npos);
  const std::size_t from = at + start.size();
  return page.substr(from, page.find("</script>", from) - from);
}

void check_stands_alone(const std::string& page, bool scripts) {
  for (const std::string piece :
       {"http:", "https:", " src=", "url(", "@import", "fetch(",
        "XMLHttpRequest", "innerHTML", "outerHTML", "insertAdjacentHTML",
        "document.write", "eval("}) {
    INFO(piece);
    CHECK(count(page, piece) == 0);
  }
  CHECK(count(page, "default-src 'none'") == 1);
  // Without any of its own, none may run.
  CHECK((count(page, "<script") > 0) == scripts);
  CHECK(std::regex_search(
            page, std::regex("script-src 'sha256-[A-Za-z0-9+/]{43}='")) ==
        scripts);
  CHECK(std::regex_search(page,
                          std::regex("style-src 'sha256-[A-Za-z0-9+/]{43}='")));
  CHECK(count(page, "unsafe-inline") == 0);
  CHECK(count(page, "<html lang=\"en\">") == 1);
  CHECK(count(page, "width=device-width") == 1);
}

}  // namespace thinspot::tests
