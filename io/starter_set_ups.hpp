#pragma once

#include "mesh/shape.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace thinspot::io {

/// Size of a starter's part, in the unit that the case file gives it in.
struct StarterSize {
  std::string_view key;
  double mm = 0;
};

/// What one starter case differs in from the others.
struct StarterSetUp {
  std::string_view shape;
  std::string_view title;
  std::string_view cut_words;  ///< how the section cuts the part
  mesh::Cut cut = mesh::Cut::side;
  std::vector<StarterSize> sizes;
  std::vector<std::string_view> flags;  ///< that are true
  double turn_deg = 0;
  std::string_view turn_words;
  /// One of these, unless the sizes tell the area.
  std::optional<double> depth_mm, area_cm2;
};

/// One for each shape, "outline" last.
const std::vector<StarterSetUp>& starter_set_ups();

/// A row of the drawing that comes with the starter of an outline: a point, and
/// how the piece from there to the next one runs.
struct DrawnPoint {
  double x_mm = 0, y_mm = 0;
  double bulge = 0;  ///< tan(sweep/4)
  std::string_view face;
};

/// Foot and grip of a drawer pull, counter-clockwise.
const std::vector<DrawnPoint>& sample_drawing();

}  // namespace thinspot::io
