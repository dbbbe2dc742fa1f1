#pragma once

#include "solver/stretch.hpp"
#include "solver/surface.hpp"

#include <Eigen/Core>

#include <vector>

namespace thinspot::solver {

/// An extreme of a moving average.
struct Extreme {
  double arc = 0;  ///< middle of the window [m]
  double value = 0;
  double from = 0, to = 0;  ///< ends of the window, by arc [m]
  std::size_t of_loop = 0;  ///< index into Surface::loops, where it has several
};

/// A quantity along one loop of the surface: quadratic over each edge by arc,
/// averaged over a window that slides along it.
class Profile {
 public:
  /// @param values at the electrode's nodes, in the order of its rows
  Profile(const SurfaceLoop& loop, const Eigen::VectorXd& values);

  /// Integral over arc from a to b, a <= b; what is not wetted counts 0.
  double integral(double a, double b) const;

  double value_at(double arc) const;

  /// Moving averages over `window` [m] at places dense enough to hold every
  /// local extreme of the quadratic pieces, in the order of arc, stretch by
  /// stretch. Near the ends of a stretch the window stays inside it; a stretch
  /// shorter than the window gives its own average.
  std::vector<Extreme> averages(const Stretches& where, double window) const;

 private:
  struct Piece {
    double from, to;
    double start, middle, end;  ///< values
    double before;              ///< integral up to `from`
  };
  double up_to(double arc) const;

  double length_;
  double total_ = 0;
  std::vector<Piece> pieces_;
};

}  // namespace thinspot::solver
