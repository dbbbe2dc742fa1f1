#pragma once

#include "mesh/curve.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace thinspot::viz {

using mesh::Point;

enum class Anchor { start, middle, end };

struct TextStyle {
  double size = 12;
  Anchor anchor = Anchor::start;
  bool bold = false;
  bool italic = false;
  std::string fill = "#1b2430";
  bool halo = false;  ///< a white rim, for text on lines
};

/// A rectangle of the drawing, y downwards.
struct TextBox {
  double left = 0, top = 0, right = 0, bottom = 0;
  double width() const { return right - left; }
  double height() const { return bottom - top; }
  TextBox grown(double by) const;
  bool holds(const Point& p) const {
    return p.x() >= left && p.x() <= right && p.y() >= top && p.y() <= bottom;
  }
};

bool overlap(const TextBox& a, const TextBox& b);

/// Valid UTF-8 without control characters: line ends and tabs become spaces,
/// broken bytes U+FFFD.
std::string clean_text(std::string_view text);

/// Width by the advance widths of DejaVu Sans, the widest of the fonts that
/// the pictures ask for: the true width is rarely larger.
double text_width(std::string_view text, const TextStyle& style);

/// Room that a text takes whose base line starts (or ends, or is centred) at
/// `at`, ascenders and descenders included.
TextBox text_box(Point at, std::string_view text, const TextStyle& style);

/// Cut at the end, with an ellipsis, to fit into the width.
std::string shortened(std::string_view text, const TextStyle& style,
                      double width);

/// Broken at spaces to fit into the width, at most `lines` lines, the last one
/// shortened.
std::vector<std::string> wrapped(std::string_view text, const TextStyle& style,
                                 double width, std::size_t lines = 4);

/// Likewise, but nothing where a part of it would have to be cut.
std::vector<std::string> wrapped_whole(std::string_view text,
                                       const TextStyle& style, double width,
                                       std::size_t lines);

}  // namespace thinspot::viz
