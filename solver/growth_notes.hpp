#pragma once

#include "solver/schedule.hpp"

#include <string>
#include <vector>

namespace thinspot::solver {

/// A thickness beyond this share of the smallest radius changes the shape that
/// the current meets. Common practice, no source: it is where a round wire's
/// surface has grown by as much.
inline constexpr double kThick = 0.02;

/// What a thickness is measured against.
struct SmallestSize {
  double size = 0;      ///< [m]
  bool radius = false;  ///< of the bare wetted surface; else the part's least
                        ///< extent, as a sharp edge has no radius
};

/// The smaller of the two where the part has radii and sharp edges. About an
/// axis the surface's own distance from it counts too.
/// @param drawn  the part where it is drawn
SmallestSize smallest_size(const Coat& coat, const mesh::Outline& drawn,
                           mesh::Cut cut);

/// @pre  the schedule's surfaces have moved
GrowthResult describe_growth(const Schedule& schedule, const Case& c);

/// Where surfaces moved, what came of it; where they did not and the deposit is
/// thick, that they should.
std::vector<std::string> growth_notes(const Schedule& schedule, const Case& c);

}  // namespace thinspot::solver
