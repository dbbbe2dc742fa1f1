#pragma once

#include "solver/sensitivity.hpp"
#include "solver/step_dual.hpp"

#include <Eigen/Core>

#include <string>
#include <utility>
#include <vector>

namespace thinspot::solver {

/// What a figure is of one step, for a growth of 1.
struct FigureInStep {
  StepFigure figure;  ///< linearized where the step works
  double value = 0;
  std::string bend;  ///< as of FigureSlopes
};

/// Figures of what all steps leave, told apart by steps.
class StepFigures {
 public:
  /// @param laid    coats and spreads that the figures are of
  /// @param points  working points of all steps
  StepFigures(const Schedule& schedule, const Case& c, const Laid& laid,
              std::vector<const WorkingPoint*> points)
      : s_(schedule), case_(c), laid_(laid), points_(std::move(points)) {}

  /// False of an extreme over a surface of which nothing counts.
  bool exists(const FigureOf& figure) const;

  /// @pre no voltage, or that of this step
  FigureInStep in_step(const FigureOf& figure, std::size_t step) const;

 private:
  /// A figure as a sum along the coat, or by the part's current.
  struct Sum {
    Eigen::VectorXd weights;  ///< on the coat's nodes; empty: none
    double currents = 0;      ///< on the part's current [1/m2]
  };
  const Extreme& window_of(const FigureOf& figure) const;
  Sum sum_of(const FigureOf& figure) const;
  FigureInStep on_coat(const FigureOf& figure, std::size_t step) const;
  FigureInStep at_probe(const FigureOf& figure, std::size_t step) const;

  const Schedule& s_;
  const Case& case_;
  const Laid& laid_;
  std::vector<const WorkingPoint*> points_;
};

}  // namespace thinspot::solver
