// A shipped case, the first byte says which, with a --set on each line.
#include "io/document.hpp"
#include "tests/fuzz/case_checks.hpp"
#include "tests/fuzz/target.hpp"

#include <algorithm>
#include <filesystem>
#include <vector>

namespace thinspot::fuzz {

namespace {

/// More than anybody writes only takes time.
constexpr std::size_t kMostOverrides = 8;

std::vector<io::Node> shipped_cases() {
  std::vector<std::filesystem::path> files;
  for (const auto& entry :
       std::filesystem::directory_iterator(THINSPOT_SOURCE_DIR "/cases"))
    if (entry.path().extension() == ".toml") files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  std::vector<io::Node> documents;
  for (const auto& file : files) documents.push_back(io::read_document(file));
  return documents;
}

std::vector<std::string> lines_in(std::string_view text) {
  std::vector<std::string> lines;
  while (!text.empty() && lines.size() <= kMostOverrides) {
    const auto end = std::min(text.find('\n'), text.size());
    lines.emplace_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return lines;
}

}  // namespace

bool one_input(std::string_view bytes) {
  static const std::vector<io::Node> cases = shipped_cases();
  static const std::string place = case_place();
  const Chosen input = chosen(bytes, cases.size());
  const std::vector<std::string> overrides = lines_in(input.rest);
  if (overrides.size() > kMostOverrides) return false;
  require_case(
      [&] { return io::read_case(cases[input.way], place, overrides); });
  return true;
}

}  // namespace thinspot::fuzz
