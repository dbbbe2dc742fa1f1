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
};

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

/// Points of the surface that divide the current to it into `count` equal
/// shares, each in the middle of its share; indices into surface.
std::vector<std::size_t> equal_current_points(const solver::PartResult& part,
                                              int count);

/// Highest thickness worth drawing [m]: a point at a sharp corner may hold
/// any value, the averaged one is what counts.
double drawn_thickness_limit(const solver::PartResult& part);

}  // namespace thinspot::viz
