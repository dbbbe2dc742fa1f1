#pragma once

#include "solver/result.hpp"

#include <string>

// VTK writes them, in a module of its own (io/files_module.hpp).
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

/// part.vtp has no more cells than this.
inline constexpr std::size_t most_part_cells = 100'000;

/// part.vtp: the surface of every part as a body, as drawn: that of a planar
/// section as a sheet which goes as far behind the section as it is deep
/// (z = 0 … -depth), open at both ends; that of an axisymmetric one turned
/// about the axis x = 0. Quads with thickness and current density at the
/// points, as in surface.vtp, seen from outside counter-clockwise. Coordinates
/// in mm. Of a surface with very many points each second, third … is left out.
/// @throws NoResultError likewise.
std::string part_vtp(const solver::Result& result);

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
