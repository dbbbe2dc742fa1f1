#pragma once

#include "solver/what_if.hpp"

namespace thinspot::solver {

/// Places along a part at which a what-if tells its coating: where the case's
/// own is thinnest and heaviest, at the ends of all stretches, and between them
/// denser where it changes more.
/// @param drawn  the part's outline where it is drawn
/// @param coat   whose nodes the weights are on
WhatIfPart what_if_part(const Schedule& schedule, const Case& c,
                        std::size_t part, const mesh::Outline& drawn,
                        const Coat& coat);

}  // namespace thinspot::solver
