#pragma once

#include "solver/case.hpp"
#include "solver/cell_estimate.hpp"
#include "solver/wetted.hpp"

#include <string>
#include <vector>

namespace thinspot::solver {

/// What an old hand would frown at. The bounds behind each are common practice
/// with no source unless findings.cpp names one.
enum class Look {
  // What spoils the plating, most serious first.
  above_burning,       ///< value: mean [A/m2], limit: burning [A/m2]
  face_not_wetted,     ///< face; value: wetted share of it
  above_range,         ///< value: mean [A/m2], limit: usual most [A/m2]
  near_limiting,       ///< value: mean [A/m2], limit: limiting [A/m2]
  over_voltage_limit,  ///< value: voltage expected [V], limit: set [V]; face:
  ///< the rectifier, of several
  adapter_too_weak,   ///< value: voltage expected [V], limit: the adapter's
                      ///< [V]; face: the rectifier, of several
  immersion_deposit,  ///< solid: the base metal, on which the coating does
                      ///< not hold as it is
  other_class_metal,  ///< the target's class is of another metal
  time_too_short,     ///< value: needed for the target at the mean [s],
                      ///< limit: planned [s]
  clip_apart,         ///< solid; value: distance to the part [m]
  touches_wall,       ///< solid
  turns_as_a_wheel,   ///< a side view whose part turns in its plane
  anode_too_near,     ///< solid; value: gap [m], limit: part's thickness [m]
  shadowed,           ///< face, by solid; value: share of the face
  anode_too_short,    ///< solid; value: share of the part's extent
  small_anodes,       ///< value: anode to cathode area
  anode_overloaded,   ///< solid; value: mean [A/m2], limit: usual most [A/m2]
  other_anode_metal,  ///< solid: its metal is not the one plated
  area_disagrees,     ///< value: drawn [m2], limit: real [m2]
  below_range,        ///< value: mean [A/m2], limit: usual least [A/m2]
  wall_for_a_clip,    ///< solid; value: depth that it counts with [m],
                      ///< limit: how thick it is drawn [m]
  much_clip,          ///< value: clips' share of the cathode's area
  much_wire,          ///< value: wires' share
  half_dipped,        ///< solid; value: share of the outline out of the liquid
  near_surface,       ///< solid; value: depth below the level [m]
  near_floor,         ///< solid; value: height above the floor [m]
  metal_from_solution,  ///< inert anodes only; value: mass taken out [kg]
  nothing_holds,        ///< upright, and neither clip nor wire
};

struct Finding {
  Look look{};
  std::string solid;  ///< its key
  std::string face;
  double value = 0, limit = 0;
};

/// What the set-up is judged by.
struct Bench {
  const Case& content;
  const mesh::Section& section;
  const WettedSection& wetted;
  const Areas& areas;
  const CellEstimate& cell;
  double depth = 0;  ///< [m]; 1 axisymmetric
};

/// Findings on the drawing: places, gaps, shadows.
std::vector<Finding> look_at_drawing(const Bench& b);

/// Findings on areas, currents, times and metals.
std::vector<Finding> look_at_numbers(const Bench& b);

/// Share of what a point of a surface sees that another solid fills: 1 where
/// it covers all, about 0.45 where it stands off by its own width. The view
/// factor of a long strip, half the difference of the sines of the angles to
/// its edges.
double share_of_view(const SurfaceSample& from, const mesh::Loop& other);

}  // namespace thinspot::solver
