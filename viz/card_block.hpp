#pragma once

#include "viz/svg.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace thinspot::viz {

/// A heading with short paragraphs below it, as the card for the bench has
/// several. It knows its height before it is drawn.
class CardBlock {
 public:
  struct Look {
    bool numbered = false;
    double size = 9.8;           ///< of the letters
    std::size_t most_lines = 3;  ///< of each paragraph
    /// A paragraph too long for its lines is cut after a whole sentence where
    /// it has several; else with an ellipsis.
    bool by_sentence = false;
  };

  CardBlock(std::string heading, double width, const Look& look);

  void add(const std::string& paragraph);
  /// Adds what fits into the height, and in place of the rest "and 4 more, see
  /// the report".
  /// @param height  of the whole block
  void add_all(const std::vector<std::string>& paragraphs, double height);

  /// 0 where nothing was added.
  double height() const;
  /// @returns where it ends.
  double draw(Svg& svg, double left, double top) const;

 private:
  struct Line {
    std::string text;
    std::string number = {};
  };
  std::vector<Line> lines_of(const std::string& paragraph) const;
  TextStyle style() const { return {.size = look_.size, .fill = "#000"}; }
  double line_height() const { return 1.24 * look_.size; }
  double indent() const { return look_.numbered ? 14 : 0; }

  std::string heading_;
  double width_;
  Look look_;
  int count_ = 0;
  std::vector<Line> lines_;
};

/// As many whole sentences from the start as fit into so many lines; the first
/// in any case.
std::string whole_sentences(const std::string& text, const TextStyle& style,
                            double width, std::size_t lines);

}  // namespace thinspot::viz
