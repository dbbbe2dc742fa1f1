#pragma once

#include "viz/svg.hpp"

#include <functional>
#include <string_view>

namespace thinspot::viz {

/// One column of a legend: signs at the left, words beside them, downwards.
class LegendColumn {
 public:
  LegendColumn(Svg& svg, double left, double top, double width)
      : svg_(svg), left_(left), y_(top), width_(width) {}

  /// @param sign  draws about the point it is given, 24 units wide.
  void entry(const std::function<void(Point)>& sign, std::string_view words);
  void heading(std::string_view words);
  /// Room of this height for something of one's own. @returns its box.
  TextBox room(double height);
  void gap(double height) { y_ += height; }
  double bottom() const { return y_; }

 private:
  Svg& svg_;
  double left_, y_, width_;
};

}  // namespace thinspot::viz
