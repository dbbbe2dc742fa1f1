#pragma once

#include "solver/kept_result.hpp"

#include <cstddef>
#include <vector>

namespace thinspot::solver {

/// One loop of a part's surface points, as a folder keeps it.
struct KeptLoop {
  std::size_t first = 0, last = 0;  ///< points first .. last-1
  /// All round [m]. The piece from the last point to the first is not known in
  /// full: it lies between these two.
  double least = 0, most = 0;
  double length() const { return 0.5 * (least + most); }
};
std::vector<KeptLoop> kept_loops(const PartResult& part);

/// How a loop lies along another of the same shape.
struct LoopMatch {
  KeptLoop a, b;
  double shift = 0;  ///< arc in b is arc in a plus this, round the loop [m]
};

/// Finds for each loop of part a its place in part b: both are points of one
/// outline, which may hang and stand otherwise, but is not mirrored. Of several
/// ways to lie the one in which most faces have the same name, then that with
/// the least shift. What is nearer than the bend of the outline between two
/// points counts as the same.
/// @throws InputError with key `name` where they are not of the same shape,
///         saying what differs
std::vector<LoopMatch> match_outlines(const PartResult& a, const PartResult& b,
                                      const std::string& name);

/// A place between two points of a surface: that of `from` and so much of the
/// way to `to`.
struct Between {
  std::size_t from = 0, to = 0;
  double share = 0;  ///< 0 .. 1
  double of(double at_from, double at_to) const {
    return at_from + share * (at_to - at_from);
  }
};

/// Where an arc of loop a lies among all points of loop b.
/// @param b  the part that the match was made for
Between place_on(const PartResult& b, const LoopMatch& match, double arc);

}  // namespace thinspot::solver
