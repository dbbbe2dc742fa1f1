#pragma once

#include "viz/text_layout.hpp"

#include <map>
#include <string>
#include <vector>

namespace thinspot::tests {

/// A tag, and what stands in it up to the next.
struct Tag {
  std::string attributes, text;
  bool closed = false;  ///< there is nothing else in it
  std::size_t end = 0;  ///< behind its ">"
};
std::vector<Tag> tags_in(const std::string& svg, const std::string& name);

/// Attributes of a tag, name to value.
std::map<std::string, std::string> attributes(const std::string& tag);

/// A text of a picture with the room that it takes by our estimate.
struct DrawnText {
  std::string text;
  bool bold = false;
  double size = 0;  ///< of the letters
  viz::TextBox box;
};

/// All <text> of a picture, with their escapes undone.
std::vector<DrawnText> drawn_texts(const std::string& svg);

/// Ends of the pieces of all paths, but of those that a clip cuts.
std::vector<viz::Point> drawn_points(const std::string& svg);

/// What pointers are told: the text of every <title> but the picture's own.
std::vector<std::string> titles(const std::string& svg);

/// "" where every tag is closed in its turn and nothing is left unescaped,
/// else what is wrong.
std::string fault_in_markup(const std::string& svg);

/// Width and height of the picture's viewBox.
viz::TextBox view_box(const std::string& svg);

}  // namespace thinspot::tests
