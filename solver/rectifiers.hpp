#pragma once

#include "solver/supply.hpp"

namespace thinspot::solver {

/// What is told where nothing is conducted, whatever the supplies give.
inline constexpr const char* kNoCurrent =
    "no current flows at any voltage: next to nothing is conducted from the "
    "anodes to the part; look at the solution's conductivity, and at the "
    "resistances of electrodes, bags and leads";

/// operate() where anodes are on several rectifiers. Each keeps to what it is
/// set to, or to its own voltage limit where that is reached first; one whose
/// anodes the others drive beyond its voltage gives nothing.
/// @throws NoResultError where no current flows at any voltage.
void operate_rectifiers(WorkingPoint& w, const Case& c,
                        const SectionScale& scale);

/// @throws InputError that names a rectifier whose anodes stand where no
///         current flows.
void check_rectifiers(const WorkingPoint& w, const Case& c);

}  // namespace thinspot::solver
