#pragma once

#include "solver/result.hpp"
#include "viz/frame.hpp"
#include "viz/label_placer.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace thinspot::viz {

/// So many faces are tagged; a drawing from a file may have hundreds.
inline constexpr std::size_t kMostTags = 20;

/// The letter of a face in a ring beside it, a line from there to the face.
struct FaceTag {
  std::string letter;
  Point foot = Point::Zero(), centre = Point::Zero();  ///< on the page
  TextBox room() const;
};

/// As one would tag the part: each face its letter. Where all is crowded it
/// stands over metal rather than not at all; a face out of the frame has none.
/// @param part  where it stands in the section
std::vector<FaceTag> face_tags(const mesh::Section& section,
                               const solver::PartResult& part,
                               const Frame& frame, LabelPlacer& placer);

void draw_face_tags(Svg& svg, const std::vector<FaceTag>& tags);

/// "A left, B right, C upper rim", with how many more there are.
std::string face_key(const solver::PartResult& part);

}  // namespace thinspot::viz
