#include "viz/text_layout.hpp"

#include <algorithm>
#include <array>
#include <cstdint>

namespace thinspot::viz {

namespace {

// Advance widths of DejaVu Sans for the characters 32..126, thousandths of
// the font size.
constexpr std::array<int, 95> widths = {
    318, 401, 460, 838, 636,  950, 780, 275, 390, 390, 500, 838, 318, 361,
    318, 337, 636, 636, 636,  636, 636, 636, 636, 636, 636, 636, 337, 337,
    838, 838, 838, 531, 1000, 684, 686, 698, 770, 632, 575, 775, 752, 295,
    295, 656, 557, 863, 748,  787, 603, 787, 695, 635, 611, 732, 684, 989,
    685, 611, 685, 390, 337,  390, 838, 500, 500, 613, 635, 550, 635, 615,
    352, 635, 634, 278, 278,  579, 278, 974, 634, 612, 635, 635, 411, 521,
    392, 634, 592, 818, 592,  592, 525, 636, 337, 636, 838};

/// Bold letters are wider by at most this in the same font.
constexpr double bold_factor = 1.13;

constexpr char32_t broken = 0xFFFD;

/// The next character of a UTF-8 text; moves `at` behind it.
char32_t next_character(std::string_view text, std::size_t& at) {
  const auto byte = [&](std::size_t k) {
    return static_cast<std::uint8_t>(text[k]);
  };
  const std::uint8_t lead = byte(at++);
  if (lead < 0x80) return lead;
  const std::size_t more = lead >= 0xF0 ? 3 : lead >= 0xE0 ? 2 : 1;
  if (lead < 0xC2 || lead > 0xF4 || at + more > text.size()) return broken;
  char32_t c = lead & (0x3Fu >> more);
  for (std::size_t k = 0; k < more; ++k) {
    if ((byte(at + k) & 0xC0u) != 0x80) return broken;
    c = (c << 6u) | (byte(at + k) & 0x3Fu);
  }
  const bool overlong = (more == 2 && c < 0x800) || (more == 3 && c < 0x10000);
  const bool surrogate = c >= 0xD800 && c <= 0xDFFF;
  if (overlong || surrogate || c > 0x10FFFF) return broken;
  at += more;
  return c;
}

/// Advance width in thousandths of the font size.
int width_of(char32_t c) {
  if (c >= 32 && c < 127) return widths[c - 32];
  if (c == U'\u00B2' || c == U'\u00B3') return 401;  // superscript 2, 3
  if (c == U'\u00B7' || c == U'\u00A0') return 318;  // middle dot, space
  if (c == U'\u2013' || c == U'\u00B0') return 500;  // en dash, degree
  if (c >= 0x0300 && c < 0x0370) return 0;           // combining marks
  if (c < 0x0250) return 700;                        // Latin with accents
  if (c < 0x1100) return 850;
  return 1050;  // wide scripts, symbols
}

}  // namespace

TextBox TextBox::grown(double by) const {
  return {left - by, top - by, right + by, bottom + by};
}

bool overlap(const TextBox& a, const TextBox& b) {
  return a.left < b.right && b.left < a.right && a.top < b.bottom &&
         b.top < a.bottom;
}

std::string clean_text(std::string_view text) {
  std::string result;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t start = at;
    const char32_t c = next_character(text, at);
    const bool control =
        c < 32 || (c >= 0x7F && c < 0xA0) || c == 0xFFFE || c == 0xFFFF;
    if (c == broken)
      result += "\xEF\xBF\xBD";
    else if (control)
      result += ' ';
    else
      result += text.substr(start, at - start);
  }
  return result;
}

double text_width(std::string_view text, const TextStyle& style) {
  int sum = 0;
  for (std::size_t at = 0; at < text.size();)
    sum += width_of(next_character(text, at));
  return sum * 1e-3 * style.size * (style.bold ? bold_factor : 1);
}

TextBox text_box(Point at, std::string_view text, const TextStyle& style) {
  const double width = text_width(text, style);
  const double share = style.anchor == Anchor::start    ? 0
                       : style.anchor == Anchor::middle ? 0.5
                                                        : 1;
  const double left = at.x() - share * width;
  return {left, at.y() - 0.78 * style.size, left + width,
          at.y() + 0.24 * style.size};
}

std::string shortened(std::string_view text, const TextStyle& style,
                      double width) {
  if (text_width(text, style) <= width) return std::string(text);
  const double room = width - text_width("\u2026", style);
  std::size_t fits = 0;
  for (std::size_t at = 0; at < text.size();) {
    next_character(text, at);
    if (text_width(text.substr(0, at), style) > room) break;
    fits = at;
  }
  while (fits > 0 && text[fits - 1] == ' ') --fits;
  return std::string(text.substr(0, fits)) + "\u2026";
}

std::vector<std::string> wrapped(std::string_view text, const TextStyle& style,
                                 double width, std::size_t lines) {
  std::vector<std::string> result;
  while (!text.empty()) {
    if (text_width(text, style) <= width || result.size() + 1 >= lines) {
      result.push_back(shortened(text, style, width));
      break;
    }
    std::size_t end = std::string_view::npos;
    for (std::size_t space = text.find(' '); space != std::string_view::npos;
         space = text.find(' ', space + 1)) {
      if (text_width(text.substr(0, space), style) > width) break;
      end = space;
    }
    if (end == std::string_view::npos) {  // one word wider than the line
      end = text.find(' ');
      result.push_back(shortened(text.substr(0, end), style, width));
      if (end == std::string_view::npos) break;
    } else {
      result.emplace_back(text.substr(0, end));
    }
    text.remove_prefix(std::min(text.size(), end + 1));
  }
  return result;
}

std::vector<std::string> wrapped_whole(std::string_view text,
                                       const TextStyle& style, double width,
                                       std::size_t lines) {
  std::vector<std::string> result = wrapped(text, style, width, lines);
  std::string whole;  // a break takes one space
  for (const std::string& line : result)
    whole += (whole.empty() ? "" : " ") + line;
  if (whole != text) result.clear();
  return result;
}

}  // namespace thinspot::viz
