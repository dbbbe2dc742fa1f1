#include "io/quote.hpp"

namespace thinspot::io {

namespace {

constexpr std::size_t kShown = 40;  // characters

/// Bytes of the sound, printable character at the start; 0 where there is none.
std::size_t character_size(std::string_view text) {
  const auto byte = [&](std::size_t k) {
    return static_cast<unsigned char>(text[k]);
  };
  const unsigned first = byte(0);
  if (first < 0x80) return first >= 0x20 && first != 0x7F ? 1 : 0;
  const std::size_t size = first >= 0xF0   ? 4
                           : first >= 0xE0 ? 3
                           : first >= 0xC2 ? 2
                                           : 0;
  if (size == 0 || first > 0xF4 || text.size() < size) return 0;
  for (std::size_t k = 1; k < size; ++k)
    if ((byte(k) & 0xC0) != 0x80) return 0;
  const unsigned second = byte(1);
  if (first == 0xC2 && second < 0xA0) return 0;   // control characters
  if (first == 0xE0 && second < 0xA0) return 0;   // overlong
  if (first == 0xED && second >= 0xA0) return 0;  // surrogates
  if (first == 0xF0 && second < 0x90) return 0;   // overlong
  if (first == 0xF4 && second >= 0x90) return 0;  // beyond Unicode
  return size;
}

}  // namespace

std::string printable(std::string_view text, std::size_t longest) {
  std::string result;
  std::size_t count = 0;
  while (!text.empty()) {
    if (count++ == longest) {
      result += "\u2026";
      break;
    }
    const std::size_t size = character_size(text);
    result += size ? text.substr(0, size) : std::string_view("?");
    text.remove_prefix(size ? size : 1);
  }
  return result;
}

std::string in_quotes(std::string_view text) {
  return '"' + printable(text, kShown) + '"';
}

bool is_printable(std::string_view text, std::size_t longest) {
  std::size_t count = 0;
  bool something = false;
  while (!text.empty()) {
    const std::size_t size = character_size(text);
    if (size == 0 || count++ == longest) return false;
    something = something || text.front() != ' ';
    text.remove_prefix(size);
  }
  return something;
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t'))
    text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t'))
    text.remove_suffix(1);
  return text;
}

}  // namespace thinspot::io
