#pragma once

#include "mesh/errors.hpp"
#include "solver/case.hpp"
#include "solver/progress.hpp"
#include "solver/result.hpp"
#include "solver/wanted.hpp"

#include <vector>

namespace thinspot::solver {

/// What is wrong with one of several cases.
class LayerError : public InputError {
 public:
  LayerError(const InputError& error, std::size_t layer)
      : InputError(error.problems()), layer_(layer) {}
  std::size_t layer() const { return layer_; }  ///< from 0

 private:
  std::size_t layer_;
};

/// The cases as layers of one job: each after the first goes onto the metal of
/// the one before, and all of them read every probe, where their own drawing
/// has it.
std::vector<Case> as_layers(const std::vector<Case>& cases);

/// Several cases plated one after the other onto the same part. Thickness is
/// that of all layers, `layers` holds each by itself; what belongs to one tank
/// alone (section, field, cell, anodes) is that of the last.
/// @pre more than one case
/// @throws InputError where the parts differ.
/// @throws LayerError where one of the set-ups is at fault.
/// @throws NoResultError where no trustworthy result comes of one.
Result simulate_layers(const std::vector<Case>& cases, const Progress& progress,
                       const Wanted& wanted);

}  // namespace thinspot::solver
