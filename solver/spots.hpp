#pragma once

#include "mesh/section.hpp"
#include "solver/profile.hpp"
#include "solver/result.hpp"

#include <vector>

namespace thinspot::solver {

/// Words for a place on a solid's surface that somebody at a bench
/// understands: "middle of the right face", "upper rim, left edge".
std::string place_in_words(const mesh::Section& section,
                           const mesh::Outline& outline, int loop, int curve,
                           double t);

/// Local minima (sign -1) or maxima (+1) along the sequence of averages that
/// stand out from what lies between them and the next more extreme one by at
/// least `prominence`; the most extreme first.
/// @param closed  the sequence goes once round a loop
std::vector<Extreme> standing_out(const std::vector<Extreme>& averages,
                                  double sign, double prominence, bool closed);

}  // namespace thinspot::solver
