#include "io/cli/wrap.hpp"

#include <algorithm>

namespace thinspot::io::cli {

std::size_t columns(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(
      text.begin(), text.end(),
      [](char c) { return (static_cast<unsigned char>(c) & 0xc0) != 0x80; }));
}

std::size_t count_lines(std::string_view text) {
  return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

std::string padded(std::string_view text, std::size_t width) {
  const std::size_t used = std::min(columns(text), width);
  return std::string(text) + std::string(width - used, ' ');
}

std::string padded_left(std::string_view text, std::size_t width) {
  const std::size_t used = std::min(columns(text), width);
  return std::string(width - used, ' ') + std::string(text);
}

std::string wrapped(std::string_view text, std::size_t indent,
                    std::size_t width) {
  std::string out;
  std::size_t column = 0;
  while (!text.empty()) {
    const std::size_t blank = text.find_first_of(" \n");
    const std::string_view word = text.substr(0, blank);
    if (column > 0 && column + 1 + columns(word) > width) {
      // Blanks at the end of a line are of no use.
      out.erase(out.find_last_not_of(' ') + 1);
      out += '\n' + std::string(indent, ' ');
      column = indent;
    } else if (!out.empty()) {
      out += ' ';
      ++column;
    }
    out += word;
    column += columns(word);
    if (blank == std::string_view::npos) break;
    text.remove_prefix(blank + 1);
  }
  return out + '\n';
}

std::string wrapped_in(std::string_view text, std::size_t first,
                       std::size_t indent) {
  // Blanks would be taken for the space between words.
  std::string filled(first - 1, '.');
  filled = wrapped(filled + ' ' + std::string(text), indent);
  return filled.replace(0, first - 1, first - 1, ' ');
}

}  // namespace thinspot::io::cli
