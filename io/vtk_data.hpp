#pragma once

#include "solver/result.hpp"

#include <string>

namespace thinspot::io {

/// section.vtu: the liquid as quadratic triangles, with the potential and the
/// current density of the last step at the nodes. Coordinates in mm.
/// @throws NoResultError where VTK writes nothing.
std::string section_vtu(const solver::Result& result);

/// surface.vtp: every part's surface as poly lines, one a loop, with thickness,
/// current density, face and share of the area at the points. Coordinates
/// in mm.
/// @throws NoResultError likewise.
std::string surface_vtp(const solver::Result& result);

/// step_1.vtp …: the same after a step, parts where they stand in it, with the
/// current density of that step.
std::string step_vtp(const solver::Result& result, std::size_t step);
std::string step_file(std::size_t step);  ///< "step_1.vtp" for step 0

/// Whether there are files of the steps: where there are several, and where
/// one leaves a part elsewhere than it is drawn.
bool has_step_files(const solver::Result& result);

/// steps.pvd: names section.vtu and surface.vtp, or the files of each step
/// where there are any, and the time [min] that they hold for.
std::string steps_pvd(const solver::Result& result);

}  // namespace thinspot::io
