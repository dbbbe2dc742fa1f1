#pragma once

#include "solver/result.hpp"
#include "viz/frame.hpp"
#include "viz/label_placer.hpp"

#include <cstddef>
#include <string>

namespace thinspot::viz {

/// So many faces are tagged; a drawing from a file may have hundreds.
inline constexpr std::size_t kMostTags = 20;

/// The letter of each face in a ring beside it, as one would tag the part, a
/// line to the face where the ring stands off. Where all is crowded it stands
/// over metal rather than not at all; a face out of the frame has none.
/// @param part  where it stands in the section
void draw_face_tags(Svg& svg, const mesh::Section& section,
                    const solver::PartResult& part, const Frame& frame,
                    LabelPlacer& placer);

/// "A left, B right, C upper rim", with how many more there are.
std::string face_key(const solver::PartResult& part);

}  // namespace thinspot::viz
