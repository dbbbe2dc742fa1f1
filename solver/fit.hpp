#pragma once

#include "solver/fit_statistics.hpp"
#include "solver/interval.hpp"
#include "solver/progress.hpp"
#include "solver/result.hpp"

#include <memory>
#include <string>
#include <vector>

namespace thinspot::solver {

/// A quantity of the case as the readings have it.
struct FittedValue {
  std::string key;
  Quantity stated;  ///< in the case; plus_minus 0: it gave none
  double value = 0;
  double plus_minus = 0;  ///< half width of the 95 % interval, to first order
  Interval interval;      ///< the same; of what is positive by its logarithm
  bool wanted = false;    ///< one that every fit looks for, or asked for
  bool told = true;  ///< the readings make it surer, or another; else it is
                     ///< here as its error goes with that of one they do
  bool given_up = false;  ///< the readings do not tell it: as stated
};

struct FittedReading {
  Reading reading;
  double before = 0;    ///< by the case as stated
  double now = 0;       ///< by the fitted values
  double others = 0;    ///< by what a fit without it would give
  double residual = 0;  ///< (now - read) over its standard deviation
  /// (what all others in line tell - read) over the standard deviation of both;
  /// 0: no other tells it.
  double against_others = 0;
  bool outlier = false;
  /// Without it: the wanted value that would change most, against its own
  /// standard deviation; empty: none would by more than half of it.
  std::string moves;
  double moved_to = 0;
};

/// What readings tell of a case.
struct Fit {
  Case stated;                      ///< that the fit began with
  Case fitted;                      ///< with the values and how sure they are
  std::vector<FittedValue> values;  ///< wanted ones, then what else changed
  std::vector<Correlated> pairs;    ///< that matter, in place of the case's
  std::vector<FittedReading> readings;
  std::vector<Untold> untold;
  double squares = 0;  ///< sum of squared residuals
  int freedom = 0;
  double chance = 1;  ///< of such a scatter or more
  double widened = 1;
  int meshings = 0, evaluations = 0;
  std::shared_ptr<const Result> forecast_before, forecast_now;
};

/// Weighted least squares: the case's numbers for which the readings come out
/// as they were read. Meshes are made a few times, everything between is
/// answered by their responses.
/// @throws InputError where a reading asks for what its case has not.
/// @throws NoResultError where no values come near the readings.
Fit fit(const Case& c, const std::vector<Experiment>& experiments,
        const FitOptions& options = {}, const Progress& progress = {});

/// The search alone, on a model that is meshed: for readings of other values.
/// @param x  where to begin; where it ended
FitPoint settled(FitModel& model, const ReadValues& read, Eigen::VectorXd x,
                 int& meshings, const Progress& progress = {});

}  // namespace thinspot::solver
