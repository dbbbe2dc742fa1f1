#pragma once

#include "mesh/section.hpp"

#include <string>

namespace thinspot::solver {

/// Words for a place on a solid's surface that somebody at a bench
/// understands: "middle of the right face", "on the bowl, 6 mm from the tip",
/// "on the left face at the liquid surface".
/// @param outline  of one of the section's solids
std::string place_in_words(const mesh::Section& section,
                           const mesh::Outline& outline, int loop, int curve,
                           double t);

/// A face's name in a sentence: "the left face", "the bowl"; names of a
/// drawing's layers are quoted: "the face \"L1\"".
std::string face_in_words(const std::string& face);

}  // namespace thinspot::solver
