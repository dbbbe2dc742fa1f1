#pragma once

#include "solver/result.hpp"

#include <string>

namespace thinspot::io {

/// part.vtp has no more cells than this.
inline constexpr std::size_t most_part_cells = 100'000;

/// part.vtp: the surface of every part as a body, as drawn: that of a planar
/// section as a sheet which goes as far behind the section as it is deep
/// (z = 0 … -depth), open at both ends; that of an axisymmetric one turned
/// about the axis x = 0. Quads with thickness and current density at the
/// points, as in surface.vtp, seen from outside counter-clockwise. Coordinates
/// in mm. Of a surface with very many points each second, third … is left out.
/// @throws NoResultError where VTK writes nothing.
std::string part_vtp(const solver::Result& result);

}  // namespace thinspot::io
