#include "tests/cli/docs_pages.hpp"

#include "tests/cli/program.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

namespace thinspot::tests {

namespace fs = std::filesystem;

namespace {

constexpr const char* kFence = "```";

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + "\n";
  return text;
}

/// The word that a line of TOML or its comment begins with: a key.
std::string key_of(std::string line) {
  if (line.starts_with("# ")) line.erase(0, 2);
  const auto end = line.find(" =");
  return end == std::string::npos ? "" : line.substr(0, end);
}

/// A line's table, without what stands behind it.
std::string table_of(const std::string& line) {
  return line.substr(0, line.rfind(']') + 1);
}

}  // namespace

std::vector<std::string> pages() {
  std::vector<std::string> all;
  for (const auto& entry :
       fs::directory_iterator(fs::path(THINSPOT_SOURCE) / "docs"))
    if (entry.path().extension() == ".md")
      all.push_back("docs/" + entry.path().filename().string());
  all.emplace_back("README.md");
  std::sort(all.begin(), all.end());
  return all;
}

std::string page_text(const std::string& page) {
  return content(fs::path(THINSPOT_SOURCE) / page);
}

std::vector<Block> blocks_of(const std::string& text) {
  std::vector<Block> blocks;
  std::string paragraph;
  bool within = false, ended = true;
  for (const std::string& line : lines_of(text)) {
    if (line.starts_with(kFence)) {
      within = !within;
      if (within) blocks.push_back({line.substr(3), paragraph, ""});
      paragraph.clear();
    } else if (within) {
      blocks.back().text += line + "\n";
    } else if (line.empty()) {
      ended = true;
    } else {
      if (std::exchange(ended, false)) paragraph.clear();
      paragraph += (paragraph.empty() ? "" : " ") + line;
    }
  }
  REQUIRE_FALSE(within);
  return blocks;
}

std::vector<std::string> prose_of(const std::string& text) {
  std::vector<std::string> prose;
  bool within = false;
  for (const std::string& line : lines_of(text)) {
    if (line.starts_with(kFence))
      within = !within;
    else if (!within)
      prose.push_back(line);
  }
  return prose;
}

std::vector<std::string> commands_of(const Block& block) {
  std::vector<std::string> commands;
  bool goes_on = false;
  for (std::string line : lines_of(block.text)) {
    if (!goes_on && (line.empty() || line.starts_with("#"))) continue;
    if (!goes_on) commands.emplace_back();
    goes_on = line.ends_with("\\");
    if (goes_on) line.pop_back();
    commands.back() += line.substr(0, line.find("  #"));
  }
  return commands;
}

std::vector<std::string> stretches_of(const std::string& excerpt) {
  std::vector<std::string> stretches(1);
  for (const std::string& line : lines_of(excerpt)) {
    if (line == "…")
      stretches.emplace_back();
    else
      stretches.back() += line + "\n";
  }
  std::erase(stretches, "");
  return stretches;
}

std::string with_keys(const std::string& case_file, const std::string& toml) {
  std::vector<std::string> lines = lines_of(case_file);
  std::string table;
  for (const std::string& change : lines_of(toml)) {
    if (change.empty() || change.starts_with("#")) continue;
    if (change.starts_with("[")) {
      table = table_of(change);
      continue;
    }
    CAPTURE(table, change);
    std::string here;
    int found = 0;
    for (std::string& line : lines) {
      if (line.starts_with("[")) here = table_of(line);
      if (here != table || key_of(line) != key_of(change)) continue;
      line = change;
      ++found;
    }
    REQUIRE(found == 1);
  }
  return joined(lines);
}

}  // namespace thinspot::tests
