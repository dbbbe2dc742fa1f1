#pragma once

#include "solver/forecast.hpp"
#include "solver/progress.hpp"
#include "solver/result.hpp"
#include "solver/schedule.hpp"

#include <optional>
#include <vector>

namespace thinspot::solver {

/// 95 % bands of the figures that the verdict rests on.
struct Bands {
  struct OfPart {
    Interval least, mean, largest;                          ///< thickness [m]
    Interval least_density, mean_density, largest_density;  ///< [A/m2]
    Interval least_judged;                                  ///< thickness [m]
    /// Thickness at each node of the part's coat, without the mesh's error;
    /// empty where nothing is uncertain [m].
    std::vector<Interval> along;
  };
  std::vector<OfPart> parts;
  Interval voltage, current;  ///< at the supply [V], [A]
  struct OfRectifier {
    Interval voltage, current;  ///< [V], [A]
  };
  std::vector<OfRectifier> rectifiers;
  /// Of the target being met everywhere that counts, 0..1; empty: no target,
  /// or nothing is uncertain.
  std::optional<double> chance;
  Forecast forecast;
};

/// Each uncertain quantity is moved to either end of its interval and the case
/// answered again; what that changes is added up by squares, upwards and
/// downwards apart, as for independent inputs. Correlated quantities are moved
/// together, along directions that are independent. Where the ends show that
/// this is not enough, and there is time, all are drawn by lot instead
/// (`Forecast::why` says which). The mesh's error comes in by squares; the
/// error of the planar section of a disc on top, on its own side.
Bands compute_bands(const Schedule& schedule, const Case& c,
                    const Progress& progress = {});

/// The same where the schedule's steps are those of several layers in their
/// order. What is uncertain in one is taken as independent of what is in
/// another; the section's error, which is of one sign, adds up by the layers'
/// shares of the mean.
Bands compute_bands(const Schedule& schedule, const std::vector<Case>& layers,
                    const Progress& progress = {});

}  // namespace thinspot::solver
