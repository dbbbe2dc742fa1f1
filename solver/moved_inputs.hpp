#pragma once

#include "solver/correlation.hpp"
#include "solver/schedule.hpp"

#include <Eigen/Core>

#include <cstddef>
#include <vector>

namespace thinspot::solver {

/// One layer of a schedule: its case, what is uncertain in it, and its place
/// among the steps.
struct LayerOfSteps {
  Case used;
  std::vector<InputGroup> groups;
  std::size_t first_step = 0, end_step = 0;    ///< of the cases
  std::size_t first_phase = 0, end_phase = 0;  ///< of the schedule
};
std::vector<LayerOfSteps> layers_in(const Schedule& schedule,
                                    const std::vector<Case>& cases);

/// Where the figures that have bands stand in one row, so that one loop serves
/// them all: voltage and current of the supply, of each rectifier; of each
/// part thickness least, mean, largest, current density likewise, least judged
/// thickness; behind them thickness at the nodes of each part's coat.
/// Densities, voltages and currents are of the last step.
struct RowPlaces {
  Eigen::Index of_parts = 2;             ///< first figure of the first part
  Eigen::Index figures = 0;              ///< how many there are
  std::vector<Eigen::Index> along = {};  ///< first node of each part
  Eigen::Index size = 0;

  static constexpr Eigen::Index kOfPart = 7;  ///< figures of one
  Eigen::Index least_judged(std::size_t part) const {
    return of_parts + kOfPart * (static_cast<Eigen::Index>(part) + 1) - 1;
  }
};
RowPlaces row_places(const Schedule& schedule);

/// The schedule as it was solved.
Eigen::VectorXd row_as_solved(const Schedule& schedule);

/// What meshing may have put off of each figure; nothing along the surface,
/// where it is not known point by point.
Eigen::VectorXd row_of_mesh_errors(const Schedule& schedule);

/// Layers that differ from what was solved in their quantities alone, answered
/// on the same meshes, with surfaces as drawn.
class MovedInputs {
 public:
  explicit MovedInputs(const Schedule& schedule) : schedule_(schedule) {}

  /// All in one row. A layer whose cell does not work at all (a voltage below
  /// the offsets, say) counts as no current and no deposit.
  Eigen::VectorXd row(const std::vector<LayerOfSteps>& layers) const;

  /// The same where one layer has moved and the others are as solved.
  Eigen::VectorXd row(const LayerOfSteps& moved) const {
    return row(std::vector<LayerOfSteps>{moved});
  }

 private:
  struct Phases;
  void answer(const LayerOfSteps& layer, Phases& phases) const;

  const Schedule& schedule_;
};

}  // namespace thinspot::solver
