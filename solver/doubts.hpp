#pragma once

#include "solver/forecast.hpp"
#include "solver/input_effects.hpp"

#include <Eigen/Core>

#include <vector>

namespace thinspot::solver {

/// Half widths of a figure's 95 % band by the inputs alone.
struct InputWidths {
  double down = 0, up = 0;
};

/// Inputs by their share of the variance of one figure, largest first.
/// `then` is left empty.
std::vector<Doubt> doubts_about(Eigen::Index figure,
                                const InputEffects& effects,
                                const std::vector<LayerOfSteps>& layers);

/// What a careful measurement of one of them leaves of a figure's half widths:
/// the same part of them as of the root of its sum of squares.
/// @param widths  as they are
/// @param doubt   the doubt-th of doubts_about
InputWidths narrowed(const InputWidths& widths, Eigen::Index figure,
                     const Doubt& doubt, const InputEffects& effects,
                     const std::vector<LayerOfSteps>& layers);

}  // namespace thinspot::solver
