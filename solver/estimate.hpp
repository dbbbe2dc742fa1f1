#pragma once

#include "solver/model.hpp"
#include "solver/outcome.hpp"

#include <Eigen/Core>

#include <vector>

namespace thinspot::solver {

/// How far the mesh may have put each figure off, to either side; true in at
/// least 95 of 100 set-ups.
struct MeshErrors {
  struct OfPart {  ///< of current density [A/m2]
    double least = 0, mean = 0, largest = 0, least_judged = 0;
  };
  std::vector<OfPart> parts;              ///< in the order of Outcome::parts
  std::vector<double> probes;             ///< of current density [A/m2]
  std::vector<double> watched;            ///< likewise
  std::vector<double> electrode_current;  ///< [A]
  double voltage = 0;                     ///< at the terminals [V]
  double current = 0;                     ///< whole cathode current [A]
  double resistance = 0;                  ///< voltage / current [ohm]
  struct OfRectifier {
    double voltage = 0;  ///< at its terminals [V]
    double current = 0;  ///< [A]
  };
  std::vector<OfRectifier> rectifiers;  ///< as in WorkingPoint
};

/// Errors of a working point on its mesh, and where they come from.
struct Estimate {
  MeshErrors errors;
  Eigen::VectorXd bar;      ///< of each goal that the tolerance is for
  Eigen::VectorXd allowed;  ///< by the tolerance, same order
  Eigen::MatrixXd share;    ///< triangles x goals: what each adds to the bar
};

/// Estimates by duals: each figure's derivative by the field is a field itself,
/// and the product of the two fields' local errors is the figure's. What is
/// averaged over a window has a dual of its own; what depends on currents (the
/// supply, resistances in leads, floating metal, slopes that follow the
/// current) is a combination of the electrodes' unit answers.
Estimate estimate_errors(const Model& model, const Case& c,
                         const Outcome& outcome);

}  // namespace thinspot::solver
