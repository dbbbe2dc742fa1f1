// docs/gallery.md, which cases/gallery writes: is it still what the program
// says?
#include "tests/cli/program.hpp"
#include "tests/cli/shipped_cases.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

using namespace thinspot::tests;
namespace fs = std::filesystem;

namespace {

const fs::path docs = fs::path(THINSPOT_SOURCE) / "docs";

bool contains(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

/// The page's block on one case, from its heading to the next.
std::string block_on(const std::string& title, const std::string& page) {
  const std::string heading = "\n## " + title + "\n";
  const std::size_t begin = page.find(heading);
  if (begin == std::string::npos) return "";
  return page.substr(begin, page.find("\n## ", begin + 1) - begin);
}

/// What was printed below the title and above the currents: verdict, thinnest,
/// heaviest, mean.
std::string figures_of(const std::string& printed) {
  const std::size_t begin = printed.find('\n') + 1;
  const std::size_t end = printed.find("\nCurrent:");
  REQUIRE(end != std::string::npos);
  return printed.substr(begin, end - begin);
}

}  // namespace

TEST_CASE("the gallery shows each shipped case with the figures of today") {
  const auto shipped = GENERATE(from_range(shipped_runs()));
  const std::string& name = shipped.name;
  CAPTURE(name);
  const Scratch scratch;
  const Run run =
      run_thinspot(scratch.path(), arguments_of(shipped, scratch / "out"));
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
  const std::string title = lines_of(run.out).front();
  const std::string block = block_on(title, content(docs / "gallery.md"));
  INFO("cases/gallery writes the page anew");
  REQUIRE(!block.empty());
  const std::string figures = figures_of(run.out);
  for (const std::string word : {"Thinnest: ", "Heaviest: ", "Mean: "})
    CHECK(contains(figures, word));
  CAPTURE(block);
  CHECK(contains(block, "```text\n" + figures + "\n```\n"));
  CHECK(contains(block, "(gallery/" + name + ".svg)"));
  const std::string picture = content(docs / "gallery" / (name + ".svg"));
  CHECK(contains(picture, "<svg"));
  CHECK(contains(picture, "</svg>"));
}

TEST_CASE("the gallery shows nothing that is not shipped") {
  std::vector<std::string> names;
  for (const ShippedRun& run : shipped_runs()) names.push_back(run.name);
  CHECK(names.size() >= 15);
  const auto lines = lines_of(content(docs / "gallery.md"));
  const auto headings = std::count_if(
      lines.begin(), lines.end(),
      [](const std::string& line) { return line.starts_with("## "); });
  CHECK(static_cast<std::size_t>(headings) == names.size());
  std::set<std::string> pictures, wanted;
  for (const auto& entry : fs::directory_iterator(docs / "gallery"))
    pictures.insert(entry.path().filename().string());
  for (const std::string& name : names) wanted.insert(name + ".svg");
  CHECK(pictures == wanted);
}
