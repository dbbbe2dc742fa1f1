#pragma once

#include "solver/estimate.hpp"
#include "solver/model.hpp"
#include "solver/outcome.hpp"
#include "solver/progress.hpp"

namespace thinspot::solver {

/// A solved case on a mesh that is fine enough for its tolerance, or as fine
/// as is reasonable.
struct Certified {
  Model model;
  Outcome outcome;
  MeshErrors errors;
  bool within = false;  ///< every error is within the tolerance
  int rounds = 0;       ///< of refinement
};

/// Solves on the model's mesh, estimates, and refines where the estimate says
/// so until least, mean and largest of every part, the cell's resistance and
/// all probes are within the tolerance. The bars are those of the very laws and
/// currents that were solved for: to go from one case to another (a resistance,
/// a supply, a step) is to certify the model again for it.
/// @param watched  windows whose averages are to be within tolerance as well
/// @param before   the same case's working point, if it is known of any mesh
Certified certify(Model model, const Case& c,
                  const std::vector<Watched>& watched = {},
                  const WorkingPoint* before = nullptr,
                  const Progress& progress = {});

}  // namespace thinspot::solver
