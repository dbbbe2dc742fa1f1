#pragma once

#include "solver/result.hpp"

#include <vector>

namespace thinspot::viz {

/// Points first .. last-1 of PartResult::surface lie on one loop.
struct SurfaceLoop {
  std::size_t first = 0, last = 0;
  int loop = 0;
  /// False where the loop crosses the axis: only half of it is surface.
  bool closed = true;
  double length = 0;     ///< that the points cover [m]
  double perimeter = 0;  ///< of the whole loop [m]
  bool round = false;    ///< about the axis x = 0
};

/// False where surface is left out between two points of a loop that follow
/// each other.
bool neighbours(const solver::SurfacePoint& a, const solver::SurfacePoint& b,
                const SurfaceLoop& loop);

std::vector<SurfaceLoop> surface_loops(const solver::Result& result,
                                       const solver::PartResult& part);

/// A piece of a part's surface that is all judged or all not, all wetted.
struct Stretch {
  bool judged = true;
  std::vector<std::size_t> points;  ///< of PartResult::surface, in order
};

/// The wetted surface, cut where "judged" changes and where metal leaves the
/// liquid. A closed loop that is all of one kind is one stretch that ends with
/// the point it starts with.
std::vector<Stretch> stretches(const solver::Result& result,
                               const solver::PartResult& part);

/// The same along the unrolled surface: each loop is walked from its lowest
/// point, which comes again as the end of the walk round a closed one.
std::vector<Stretch> unrolled_stretches(const solver::Result& result,
                                        const solver::PartResult& part);

/// The surface of a stretch, moved out along the normal by `factor` times the
/// coating's thickness. Points of an endless corner value are held at
/// `highest` [m].
std::vector<mesh::Point> coating_surface(const solver::PartResult& part,
                                         const Stretch& stretch, double factor,
                                         double highest);

/// The same moved out by one distance [m] everywhere.
std::vector<mesh::Point> offset_surface(const solver::PartResult& part,
                                        const Stretch& stretch,
                                        double distance);

/// A point of a part's surface by its indices.
struct PlaceOnPart {
  std::size_t part = 0;   ///< of Result::parts
  std::size_t point = 0;  ///< of PartResult::surface
};

/// Points that divide the current to all copies into `count` equal shares,
/// each in the middle of its share.
std::vector<PlaceOnPart> equal_current_points(const solver::Result& result,
                                              int count);

/// Highest thickness worth drawing [m]: a point at a sharp corner may hold
/// any value, the averaged one is what counts.
double drawn_thickness_limit(const solver::PartResult& part);

}  // namespace thinspot::viz
