#include "viz/legend_column.hpp"

namespace thinspot::viz {

namespace {

constexpr double line_height = 15.5;
constexpr double sign_room = 32;

}  // namespace

void LegendColumn::entry(const std::function<void(Point)>& sign,
                         std::string_view words) {
  const TextStyle style{.size = 12};
  sign({left_ + 12, y_ + 9});
  for (const std::string& line :
       wrapped(clean_text(words), style, width_ - sign_room)) {
    svg_.text({left_ + sign_room, y_ + 13}, line, style);
    y_ += line_height;
  }
  y_ += 3;
}

void LegendColumn::heading(std::string_view words) {
  const TextStyle style{.size = 12, .bold = true};
  svg_.text({left_, y_ + 13}, shortened(clean_text(words), style, width_),
            style);
  y_ += line_height + 3;
}

TextBox LegendColumn::room(double height) {
  const TextBox box{left_, y_, left_ + width_, y_ + height};
  y_ += height;
  return box;
}

}  // namespace thinspot::viz
