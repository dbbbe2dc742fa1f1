#pragma once

#include "mesh/mesh.hpp"
#include "solver/case.hpp"
#include "solver/electrodes.hpp"
#include "solver/stretch.hpp"

#include <Eigen/Core>

#include <array>
#include <string>
#include <vector>

namespace thinspot::solver {

/// One wetted edge of the part, unrolled: nodes in the sense of the outline.
struct SurfaceEdge {
  double from = 0, to = 0;    ///< arc [m], from < to
  int curve = 0;              ///< of the loop
  std::array<int, 3> node{};  ///< indices into the electrode's rows: from,
                              ///< to, middle
  std::size_t boundary = 0;   ///< index into Mesh::boundary, which runs the
                              ///< other way
};

/// One closed loop of the part's outline, unrolled counter-clockwise from its
/// lowest point.
struct SurfaceLoop {
  int loop = 0;                     ///< of the outline
  double length = 0;                ///< [m]
  std::vector<double> curve_start;  ///< arc at which each curve begins; may
                                    ///< be negative for one that holds arc 0
  std::vector<SurfaceEdge> edges;   ///< sorted by arc
  Stretches open;                   ///< wetted, away from contacts and masks
  Stretches judged;                 ///< of those, significant surface
};

/// An electrode's surface unrolled.
struct Surface {
  std::size_t electrode = 0;       ///< index into Electrodes::each
  std::vector<SurfaceLoop> loops;  ///< those that meet the liquid
};

/// Length and starts of one of an outline's loops, without edges yet.
SurfaceLoop loop_of(const mesh::Outline& outline, std::size_t loop);

/// Unrolls any electrode; all that is wetted counts as open, none as judged.
Surface unroll(const mesh::Mesh& mesh, const mesh::Section& section,
               const Electrodes& electrodes, std::size_t electrode);

/// All that its edges cover.
Stretches wetted(const SurfaceLoop& loop);

/// What of a loop belongs to one of the faces.
Stretches stretches_of_faces(const SurfaceLoop& loop,
                             const mesh::Outline& outline,
                             const std::vector<std::string>& faces);

/// Arc of the loop's highest point; of a level stretch the middle.
double highest_arc(const SurfaceLoop& loop, const mesh::Outline& outline);

/// Arc of a point of the outline, 0 <= arc < length.
double arc_of(const SurfaceLoop& loop, const mesh::Outline& outline, int curve,
              double t);

/// Fraction of a curve at which an arc of one of its edges lies: the inverse of
/// arc_of.
double fraction_of(const SurfaceLoop& loop, const mesh::Outline& outline,
                   int curve, double arc);

/// The curve that holds an arc, and the fraction of it.
struct PlaceOnLoop {
  int curve = 0;
  double t = 0;
};
PlaceOnLoop place_at(const SurfaceLoop& loop, const mesh::Outline& outline,
                     double arc);

}  // namespace thinspot::solver
