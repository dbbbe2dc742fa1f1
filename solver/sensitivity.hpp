#pragma once

#include "solver/case.hpp"
#include "solver/schedule.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace thinspot::solver {

/// A figure of a schedule.
struct FigureOf {
  enum class Kind {
    least_judged,  ///< thickness of a part [m]
    least,         ///< likewise, of all its open surface
    largest,
    mean,
    probe,   ///< thickness at a probe [m]
    voltage  ///< at the supply's terminals in a step of the schedule [V]
  };
  Kind kind = Kind::least_judged;
  std::size_t of = 0;  ///< which part, probe or step (phase)
};

/// What it is in a schedule; windows of extremes as they lie.
double value_of(const Schedule& schedule, const FigureOf& figure);

/// How one figure goes by each input.
struct FigureSlopes {
  double value = 0;
  /// In the order of Sensitivities::keys; nothing where there is no derivative.
  std::vector<std::optional<double>> by;
  /// Why there is none by what moves currents, as a sentence; empty: there is.
  std::string bend;
};

/// Derivatives of figures by every input that leaves the meshes as they are:
/// all of for_each_quantity.
struct Sensitivities {
  std::vector<std::string> keys;  ///< as for_each_quantity has them
  std::vector<double> at;         ///< value of each input
  std::vector<FigureSlopes> figures;
};

/// One dual solve for each figure and each solution of the schedule. The
/// windows of extremes are held where they are: the derivative of an extreme
/// over windows is that at the extreme window, and where two are alike that of
/// the one in CoatSpread. By a resistance in a lead or contact that is 0 it is
/// the one towards more; by a polarization of 0 there is none, as a fixed
/// potential is another law. Where the surface moves with its deposit, what an
/// input changes is found on the surface as drawn and is the same share of the
/// figure, as in compute_bands.
/// @param schedule  of this case, not of several layers
Sensitivities sensitivities(const Schedule& schedule, const Case& c,
                            const std::vector<FigureOf>& figures);

}  // namespace thinspot::solver
