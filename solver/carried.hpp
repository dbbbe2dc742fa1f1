#pragma once

#include "mesh/section.hpp"
#include "solver/electrodes.hpp"
#include "solver/surface.hpp"

#include <Eigen/Core>

#include <map>
#include <utility>
#include <vector>

namespace thinspot::solver {

/// How far the points of a part's surface have moved from where they are drawn:
/// what the part takes along from one step to the next, whatever the mesh and
/// wherever it stands then.
class Carried {
 public:
  /// Takes the moves down, in place of those known so far on the curves that
  /// the surface has edges on.
  /// @param solid  the part as it stands in the step, unmoved
  /// @param moves  2 x nodes of the mesh [m]
  void take(const mesh::PlacedSolid& solid, const Electrodes& electrodes,
            const Surface& surface, const Eigen::Matrix2Xd& moves);

  /// Puts them where the surface of another mesh has nodes; nothing where none
  /// are known.
  /// @param moves  2 x nodes of the mesh; set [m]
  void give(const mesh::PlacedSolid& solid, const Electrodes& electrodes,
            const Surface& surface, Eigen::Matrix2Xd& moves) const;

 private:
  /// Of one edge, by fractions of its curve as drawn: along the normal out of
  /// the metal, and along the curve.
  struct Piece {
    double from, to;
    Eigen::Matrix<double, 2, 3> move;  ///< at from, to, middle [m]
  };
  std::map<std::pair<int, int>, std::vector<Piece>> pieces_;
};

}  // namespace thinspot::solver
