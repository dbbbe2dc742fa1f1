#pragma once

#include <cstddef>
#include <string>

namespace thinspot::solver {

/// What the face of that place in PartResult::faces is tagged with, on the card
/// for the bench and in every table: A to Z, then AA, AB …
/// @param face  from 0
std::string face_letter(std::size_t face);

}  // namespace thinspot::solver
