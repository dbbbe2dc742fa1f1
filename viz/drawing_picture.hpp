#pragma once

#include "mesh/section.hpp"
#include "solver/case.hpp"

#include <string>

namespace thinspot::viz {

/// What stands where before anything is solved: tank, solids, lacquer, with
/// the dimensions by which a slip of the pen is seen: free distances from
/// part to anodes, level, size of the part. SVG text; needs no display.
/// @pre section was built from c.section and holds a part.
std::string drawing_picture(const solver::Case& c,
                            const mesh::Section& section);

}  // namespace thinspot::viz
