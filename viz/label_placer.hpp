#pragma once

#include "viz/text_layout.hpp"

#include <vector>

namespace thinspot::viz {

/// Keeps texts apart: knows what room is taken inside its bounds.
class LabelPlacer {
 public:
  explicit LabelPlacer(const TextBox& bounds) : bounds_(bounds) {}

  bool free(const TextBox& box) const;
  void block(const TextBox& box) { taken_.push_back(box); }
  /// Takes the room if it is free.
  bool take(const TextBox& box);

 private:
  TextBox bounds_;
  std::vector<TextBox> taken_;
};

/// Moves labels of one column apart: each gets a centre as near to the wanted
/// one as `height` for each inside low..high allows, order kept.
/// @returns the centres in the order given; if they cannot all fit, they are
/// spread evenly.
std::vector<double> spread_apart(const std::vector<double>& wanted,
                                 double height, double low, double high);

}  // namespace thinspot::viz
