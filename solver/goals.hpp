#pragma once

#include "solver/local_errors.hpp"
#include "solver/model.hpp"
#include "solver/outcome.hpp"

#include <Eigen/Core>

#include <vector>

namespace thinspot::solver {

/// The figures of a working point as functionals of the field, in one row:
/// voltage, current, resistance, the current of each electrode, then windows,
/// then what each of several rectifiers shows.
struct Goals {
  static constexpr Eigen::Index voltage = 0, current = 1, resistance = 2;
  Eigen::Index current_of(std::size_t electrode) const {
    return 3 + static_cast<Eigen::Index>(electrode);
  }
  struct OfPart {  ///< place of its windows among the goals; -1: none
    Eigen::Index least = -1, largest = -1, least_judged = -1;
  };
  std::vector<OfPart> parts;
  std::vector<Eigen::Index> probes, watched;
  struct OfRectifier {
    Eigen::Index voltage = 0, current = 0;
  };
  std::vector<OfRectifier> rectifiers;

  Eigen::VectorXd value;
  Fields fields;             ///< unit answers, then one a window
  Eigen::VectorXd solution;  ///< drives, then zeros
  Eigen::MatrixXd duals;     ///< fields x goals
  /// Error that no dual knows of: where potentials are held, what a current
  /// density linear on each edge cannot follow in a window.
  struct Beside {
    Eigen::Index goal = 0;
    double size = 0;
    std::vector<int> triangles;  ///< of the window's edges
  };
  std::vector<Beside> beside;
  Eigen::MatrixXd by_slope;  ///< goals x electrodes: derivative by the
                             ///< logarithm of each resistance
};

Goals find_goals(const Model& model, const Case& c, const Outcome& outcome);

/// Length or area of a solid's boundary edge along its true curve
/// [m planar, m2 axisymmetric].
double true_measure(const Model& model, const mesh::BoundaryEdge& edge);

}  // namespace thinspot::solver
