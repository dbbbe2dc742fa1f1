// Links of README.md and docs/*.md lead to a file that is there, and to a
// heading that is in it; and every page can be found from README.md.
#include "tests/cli/docs_pages.hpp"
#include "tests/cli/program.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>

#include <cctype>
#include <regex>
#include <set>

using namespace thinspot::tests;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// A heading's name in a link, as the usual viewers make it: lower case, marks
/// left out, spaces as hyphens.
std::string anchor_of(const std::string& heading) {
  std::string name;
  for (const char c : heading) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == ' ')
      name += '-';
    else if (byte >= 0x80 || std::isalnum(byte) || c == '-' || c == '_')
      name += static_cast<char>(byte < 0x80 ? std::tolower(byte) : byte);
  }
  return name;
}

std::set<std::string> anchors_of(const std::string& page) {
  std::set<std::string> names;
  for (const std::string& line : prose_of(page_text(page))) {
    const auto level = line.find_first_not_of('#');
    if (level == 0 || level == std::string::npos || line[level] != ' ')
      continue;
    names.insert(anchor_of(line.substr(level + 1)));
  }
  return names;
}

/// What stands in the round brackets of a page's links and pictures.
std::vector<std::string> links_of(const std::string& page) {
  std::string prose;
  for (const std::string& line : prose_of(page_text(page)))
    prose += line + "\n";
  std::vector<std::string> links;
  const std::regex form("\\]\\(([^)\\s]+)\\)");
  for (std::sregex_iterator it(prose.begin(), prose.end(), form), end;
       it != end; ++it)
    links.push_back((*it)[1]);
  return links;
}

/// The file that a link of a page leads to, by its path from the top.
std::string target_of(const std::string& page, const std::string& link) {
  const std::string file = link.substr(0, link.find('#'));
  if (file.empty()) return page;
  return (fs::path(page).parent_path() / file).lexically_normal().string();
}

}  // namespace

TEST_CASE("links lead somewhere", "[docs]") {
  for (const std::string& page : pages())
    for (const std::string& link : links_of(page)) {
      if (link.starts_with("http")) continue;
      CAPTURE(page, link);
      const std::string target = target_of(page, link);
      REQUIRE(fs::exists(fs::path(THINSPOT_SOURCE) / target));
      const auto mark = link.find('#');
      if (mark == std::string::npos) continue;
      CHECK(anchors_of(target).contains(link.substr(mark + 1)));
    }
}

TEST_CASE("README.md leads to every page", "[docs]") {
  std::set<std::string> found;
  for (const std::string& link : links_of("README.md"))
    if (!link.starts_with("http")) found.insert(target_of("README.md", link));
  for (const std::string& page : pages())
    if (page != "README.md") {
      CAPTURE(page);
      CHECK(found.contains(page));
    }
}

// A file that a recipe has one make is marked as new there, and is none yet.
TEST_CASE("files that pages for developers name are there", "[docs]") {
  const std::regex form(
      "`((?:cases|docs|io|mesh|solver|tests|viz)/[a-zA-Z0-9_./]+\\.[a-z]+)`"
      "(\\*\\* \\(new\\))?");
  int named = 0;
  for (const std::string page : {"DEVELOPERS.md", "docs/adding.md"}) {
    const std::string text = page_text(page);
    for (std::sregex_iterator it(text.begin(), text.end(), form), end;
         it != end; ++it, ++named) {
      const std::string file = (*it)[1];
      if (file.find("NAME") != std::string::npos) continue;
      CAPTURE(page, file);
      CHECK(fs::exists(fs::path(THINSPOT_SOURCE) / file) != (*it)[2].matched);
    }
  }
  CHECK(named > 50);
}
