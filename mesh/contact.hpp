#pragma once

#include "mesh/section.hpp"

namespace thinspot::mesh {

/// Presses clips and shields that touch another solid in a point, round against
/// flat, a hundredth of their size into it: the liquid would end there in a
/// wedge without angle, which no mesh can fill, and no real contact is a point.
void press_together(Section& section);

}  // namespace thinspot::mesh
