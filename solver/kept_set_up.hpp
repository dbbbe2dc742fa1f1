#pragma once

#include "solver/set_up_figures.hpp"

#include <optional>
#include <vector>

namespace thinspot::solver {

/// Set-ups that differ in quantities and settings alone: geometry is paid for
/// once. The meshes are refined until they are fine enough at each of its
/// corners, set-ups that lie farthest apart; between them a mesh error is the
/// largest share that it is of its figure at any corner.
class KeptSetUp {
 public:
  /// Corners that do not work are left out.
  explicit KeptSetUp(const std::vector<Case>& corners);

  /// False where no corner works: then each set-up has to be solved alone.
  bool works() const { return schedule_.has_value(); }

  /// @pre works()
  /// @throws CaseError where no current flows with these.
  SetUpFigures answer(const Case& c, bool bands) const;

 private:
  void learn_errors(const Case& corner);

  std::optional<Schedule> schedule_;
  /// Mesh errors as shares: of the mean thickness, of voltage and current.
  SetUpFigures::MeshErrors shares_;
  bool within_ = true;
};

/// The same of a set-up by itself.
/// @throws CaseError
SetUpFigures solved_alone(const Case& c, bool bands);

}  // namespace thinspot::solver
