#include "io/nesting.hpp"

namespace thinspot::io {

namespace {

constexpr int kMostBrackets = 16;
constexpr int kMostDots = 60;

/// Behind the text in quotes that starts at `at`, by TOML's rules; the end
/// where it is not closed. Counts the lines it runs over.
std::size_t behind_text(std::string_view toml, std::size_t at, int& line) {
  const char quote = toml[at];
  const bool escapes = quote == '"';
  const std::string_view three = toml.substr(at, 3);
  const bool long_text = three == "\"\"\"" || three == "'''";
  at += long_text ? 3 : 1;
  while (at < toml.size()) {
    const char c = toml[at];
    if (c == '\n') {
      if (!long_text) return at;
      ++line;
    }
    if (c == '\\' && escapes) {
      // A line may end in a backslash; its end still counts.
      at += at + 1 < toml.size() && toml[at + 1] == '\n' ? 1 : 2;
      continue;
    }
    if (c == quote) {
      if (!long_text) return at + 1;
      if (toml.substr(at, 3) == three) {
        at += 3;
        // Up to two more quotes belong to the text.
        while (at < toml.size() && toml[at] == quote) ++at;
        return at;
      }
    }
    ++at;
  }
  return toml.size();
}

}  // namespace

int line_nested_too_deeply(std::string_view toml) {
  int line = 1, brackets = 0, dots = 0;
  for (std::size_t at = 0; at < toml.size();) {
    switch (toml[at]) {
      case '\n':
        ++line;
        dots = 0;
        break;
      case '#':
        while (at + 1 < toml.size() && toml[at + 1] != '\n') ++at;
        break;
      case '"':
      case '\'': at = behind_text(toml, at, line); continue;
      case '[':
      case '{': ++brackets; break;
      case ']':
      case '}': --brackets; break;
      case '.': ++dots; break;
      default: break;
    }
    if (brackets > kMostBrackets || dots > kMostDots) return line;
    ++at;
  }
  return 0;
}

}  // namespace thinspot::io
