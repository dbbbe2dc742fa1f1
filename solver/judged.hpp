#pragma once

#include "mesh/section.hpp"
#include "solver/case.hpp"
#include "solver/surface.hpp"

namespace thinspot::solver {

/// @throws InputError where target.faces names a face that the part has not.
void check_target_faces(const mesh::Outline& part, const Case& c);

/// Takes the margins of contacts (hanging wire, clips) out of a part's open
/// surface and marks what is judged: the faces of the target, or what a 20 mm
/// ball can touch.
/// @throws InputError where target.faces names a face that the part has not.
void mark_judged(Surface& surface, const mesh::Section& section,
                 std::size_t solid, const Case& c);

}  // namespace thinspot::solver
