#pragma once

#include "solver/profile.hpp"

#include <cstddef>
#include <vector>

namespace thinspot::solver {

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
