#pragma once

#include "mesh/section.hpp"
#include "solver/case.hpp"

#include <string>
#include <vector>

namespace thinspot::solver {

/// What a layer's case is called in messages: its file, or "layer 2".
/// @param layer  from 0
std::string file_of_layer(const Case& c, std::size_t layer);

/// That several cases plate the same part, so that what each leaves adds up
/// point by point. Masks, clips, place and turn may differ.
/// @throws InputError in one line that names both files and what differs.
void check_same_part(const std::vector<Case>& layers);

/// Where a point of a solid's material lies where the same solid is drawn
/// elsewhere or turned [m].
mesh::Point as_drawn_there(const mesh::Solid& here, const mesh::Solid& there,
                           const mesh::Point& at);

}  // namespace thinspot::solver
