#include "io/findings.hpp"

#include "io/quote.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io {

namespace {

/// Enough for any reader; a hostile file has hundreds of thousands.
constexpr std::size_t kMost = 200;

/// A key that is shown whole [characters].
constexpr std::size_t kLongestKey = 200;

/// Line of the key, or of the nearest table around it.
/// @returns -1 where neither is in the file.
int line_of(std::string key, const KeyLines& lines) {
  while (true) {
    const auto found = lines.find(key);
    if (found != lines.end()) return found->second;
    const auto dot = key.rfind('.');
    if (dot == std::string::npos) return -1;
    key.resize(dot);
  }
}

}  // namespace

std::string place_of(const std::string& key, const std::string& path,
                     const KeyLines& lines) {
  const int line = line_of(key, lines);
  if (line == 0) return "--set";
  return line < 0 ? path : fmt::format("{}:{}", path, line);
}

void Findings::add(std::string key, std::string wrong, std::string mend) {
  if (problems_.size() < kMost)
    problems_.push_back({std::move(key), std::move(wrong), std::move(mend)});
}

void Findings::add(const std::string& prefix, const InputError& error) {
  for (const Problem& p : error.problems())
    add(p.key.empty() ? prefix : prefix + "." + p.key, p.wrong, p.mend);
}

void Findings::throw_if_any() const {
  if (problems_.empty()) return;
  std::vector<Problem> sorted = problems_;
  std::stable_sort(sorted.begin(), sorted.end(),
                   [&](const Problem& a, const Problem& b) {
                     return line_of(a.key, lines_) < line_of(b.key, lines_);
                   });
  for (Problem& p : sorted) {
    if (p.place.empty()) p.place = place_of(p.key, path_, lines_);
    // Names of the user's own, of substances, are part of some.
    if (!p.key.empty() && !is_printable(p.key, kLongestKey))
      p.key = in_quotes(p.key);
  }
  throw InputError(std::move(sorted));
}

}  // namespace thinspot::io
