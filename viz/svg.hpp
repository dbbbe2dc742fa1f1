#pragma once

#include "viz/text_layout.hpp"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace thinspot::viz {

/// How a shape is filled and stroked.
struct Paint {
  std::string fill = "none";
  std::string stroke = "none";
  double width = 1;       ///< of the stroke
  std::string dash = {};  ///< "4 3"; empty: drawn through
  double opacity = 1;
  std::string clip = {};   ///< id of a clip made by Svg::clip()
  std::string title = {};  ///< of a path: what a pointer on it is told
  bool crisp = false;      ///< edges on whole pixels: neighbours leave no gap
  bool round = false;      ///< ends of strokes; PathText::dot() needs them
};

/// Text of a path's "d", in coordinates of the drawing (y downwards).
class PathText {
 public:
  void move(Point to);
  void line(Point to);
  /// @param clockwise  as seen on the page.
  void arc(Point to, double radius, bool large, bool clockwise);
  void close() { text_ += 'Z'; }
  /// A rectangle, in few letters.
  void box(const TextBox& box);
  /// A stroke without length: what is drawn is its round ends.
  void dot(Point at);
  /// All points in a chain.
  void chain(const std::vector<Point>& points, bool closed);
  bool empty() const { return text_.empty(); }
  const std::string& text() const { return text_; }

 private:
  std::string text_;
};

/// What a shape may be filled with so that it is told apart without colour.
enum class Pattern { slanted, crossed, upright, level, dots };

/// Writes an SVG picture: real text, everything escaped, numbers with two
/// decimals, no style sheets (so that it can stand inside a page).
class Svg {
 public:
  /// @param prefix  starts every id, so that two pictures fit on one page.
  Svg(std::string prefix, double width);

  double width() const { return width_; }

  void path(const PathText& d, const Paint& paint);
  void rect(const TextBox& box, const Paint& paint, double rounding = 0);
  void line(Point from, Point to, const Paint& paint);
  void circle(Point centre, double radius, const Paint& paint);
  void polygon(const std::vector<Point>& points, const Paint& paint);
  void text(Point at, std::string_view text, const TextStyle& style);

  void open_group(double opacity = 1, std::string_view name = {});
  void close_group();

  /// A rectangle to clip by. @returns its id, for Paint::clip.
  std::string clip(const TextBox& box);
  /// Lines or dots to fill with. @returns "url(#…)", for Paint::fill.
  std::string pattern(Pattern kind, std::string_view colour, double spacing);
  /// Slanted lines.
  std::string hatch(std::string_view colour, double spacing) {
    return pattern(Pattern::slanted, colour, spacing);
  }

  /// Numbers for scripts of a page that holds the picture, as an attribute
  /// "data-NAME" of the whole.
  void data(std::string_view name, std::string_view numbers);

  /// The whole picture. @param title  its accessible name;
  /// @param description  what it shows, for those who cannot see it.
  /// @param paper  width and height on paper [mm]; left out: as wide as the
  /// room it is put into.
  std::string finish(double height, std::string_view title,
                     std::string_view description,
                     const std::optional<Point>& paper = {}) const;

 private:
  void add(std::string_view element) { body_ += element; }

  std::string prefix_;
  double width_;
  int ids_ = 0;
  std::map<std::string, std::string> patterns_;  ///< id of what is inside
  std::string defs_;
  std::string data_;
  std::string body_;
};

/// <, >, & and quotes replaced, control characters and broken bytes taken out.
std::string escaped(std::string_view text);

}  // namespace thinspot::viz
