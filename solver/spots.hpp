#pragma once

#include "mesh/section.hpp"
#include "solver/profile.hpp"
#include "solver/result.hpp"

#include <vector>

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

/// Places of values from the largest down. Two sides of a part that are alike
/// keep their order: which of them is ahead by rounding differs from machine
/// to machine.
std::vector<std::size_t> from_largest(const std::vector<double>& values);

/// Local minima (sign -1) or maxima (+1) along the sequence of averages that
/// stand out from what lies between them and the next more extreme one by at
/// least `prominence`; the most extreme first.
/// @param closed  the sequence goes once round a loop
std::vector<Extreme> standing_out(const std::vector<Extreme>& averages,
                                  double sign, double prominence, bool closed);

}  // namespace thinspot::solver
