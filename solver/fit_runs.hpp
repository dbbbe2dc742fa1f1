#pragma once

#include "solver/case.hpp"
#include "solver/reading.hpp"
#include "solver/sensitivity.hpp"

#include <cstddef>
#include <vector>

namespace thinspot::solver {

/// A set-up and what was read in it.
struct Experiment {
  Case content;
  std::vector<Reading> readings;
};

/// A figure that takes part in a reading.
struct ReadFigure {
  std::size_t reading = 0;  ///< which, of all
  FigureOf figure;
  bool area = false;     ///< a thickness that counts by the part's area and the
                         ///< metal's density: a mass
  bool current = false;  ///< in place of the figure: what the supply gives in
                         ///< that step
};

/// One case to be solved, and the readings that it answers.
struct FitRun {
  Case content;
  std::vector<ReadFigure> figures;  ///< of `figure.of` a step: of the case
};

/// Sorts the readings by the case that answers them; those of two cathodes,
/// which take no mesh, are left out. Readings count through all experiments.
/// @throws InputError where a reading asks for what its case has not: a step,
///         a part, a probe; and where they are of more than 60 cases.
std::vector<FitRun> fit_runs(const std::vector<Experiment>& experiments);

}  // namespace thinspot::solver
