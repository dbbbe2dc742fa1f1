#pragma once

#include "mesh/child_process.hpp"
#include "mesh/curve.hpp"
#include "mesh/generate.hpp"
#include "mesh/size_sources.hpp"

#include <map>
#include <vector>

namespace thinspot::mesh {

/// A piece of the liquid's boundary as the booleans left it.
struct BoundaryPiece {
  Curve curve;        ///< in the sense of the outline that it is of
  bool wall = false;  ///< of the tank, else of a solid
  bool electrode = false;
  bool part = false;  ///< bare metal of a part
  int owner = -1;     ///< index of the solid
  double size = 0;    ///< length of edges asked for; 0: as the field sees fit
  int start_vertex = 0, end_vertex = 0;
};

/// Unit normal into the liquid at a fraction of the piece.
Point into_liquid(const BoundaryPiece& piece, double t);

/// A corner of the liquid.
struct CornerPoint {
  Point at = Point::Zero();
  double angle = 0;        ///< inside the liquid [rad]
  bool electrode[2] = {};  ///< of the two pieces that meet here
  int owner[2] = {-1, -1};
  bool part = false;
  double reach = 0;  ///< length of the shorter piece [m]
};

/// Power of the distance to a corner with which the potential rises there.
double exponent(const CornerPoint& corner);

/// Wanted edge length as a function of place:
///   h(x) = min over sources of (h_s + growth_s |x - source_s|).
/// Sources are roundings, singular corners and narrow gaps. A corner of angle
/// beta has the exponent lambda = pi/beta between alike boundaries and
/// pi/(2 beta) between metal and insulator; its error on a mesh with local
/// size h is of order (h/reach)^(2 lambda), which sets its size.
class SizeField {
 public:
  SizeField(const std::vector<BoundaryPiece>& pieces,
            const std::vector<CornerPoint>& corners, double liquid_extent,
            const Grading& grading);
  double operator()(const Point& x) const;  ///< [m]

  /// As bytes for another process.
  void pack(Bytes& bytes) const;
  static SizeField unpacked(Bytes& bytes);

 private:
  SizeField() = default;
  /// How fine an electrode's roundings must be.
  struct Fineness {
    bool held;           ///< as good as a fixed potential
    double per_quarter;  ///< elements on a quarter round
    double growth;
  };
  Fineness fineness(double polarization_length) const;
  void add_roundings(const std::vector<BoundaryPiece>& pieces,
                     const Grading& grading);
  void add_corners(const std::vector<CornerPoint>& corners,
                   const Grading& grading);
  void add_gaps(const std::vector<BoundaryPiece>& pieces);
  /// Of the larger electrode at a corner; 0 where there is none [m].
  double extent_at(const CornerPoint& corner) const;

  double largest_ = 0;
  double part_extent_ = 0;
  std::map<int, double> extent_;  ///< of each owner [m]
  SizeSources sources_;
};

}  // namespace thinspot::mesh
