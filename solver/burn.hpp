#pragma once

#include "solver/usual_range.hpp"

#include <Eigen/Core>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace thinspot::solver {

struct Case;
struct Result;
struct Schedule;

/// What a current density near the limiting one likely makes of the deposit.
/// Likely, not certain: additives and stirring move it.
enum class Burn {
  dull,    ///< rough or dull
  burnt,   ///< dark, burnt
  powdery  ///< loose powder: no more metal comes
};

/// Shares of the limiting current density above which each begins. Common
/// practice, no source: from memory.
inline constexpr double kDullShare = kShareOfLimit, kBurntShare = 0.7;

/// A stretch of a part's surface that likely burns in one step.
struct BurnSpan {
  std::size_t step = 0, part = 0;  ///< indices into Result::steps, ::parts
  Burn kind = Burn::dull;          ///< at its worst
  int loop = 0;
  double from = 0, to = 0;  ///< arc [m], from < to; past the loop's length
                            ///< where it runs over arc 0
  double around = 0;        ///< length of the loop [m]
  double at = 0;            ///< arc of the largest current density [m]
  double peak = 0;          ///< averaged over the averaging length [A/m2]
  double share = 0;         ///< of the limit, there
  std::string face;         ///< there
  std::string where;        ///< in words
};

/// Where current density is too large for a sound deposit.
struct BurnMap {
  /// Current density that counts as the limit [A/m2]; empty: none is known,
  /// and nothing is told; or there are several layers, each with its own.
  std::optional<double> limit;
  double limit_plus_minus = 0;  ///< half width of its 95 % interval [A/m2]
  /// The case itself says from where on it burns (target); else it is the
  /// solution's limiting current density.
  bool given = false;
  std::vector<BurnSpan> spans;  ///< step by step, worst first
  /// Current density over the limit, averaged likewise, the largest of all
  /// steps; each part at the points of PartResult::surface.
  std::vector<Eigen::VectorXd> share;
};

/// From the current densities of each step, averaged over the averaging
/// length; of a part that turns, the largest of all its angles.
BurnMap burn_map(const Schedule& schedule, const Case& c, const Result& result);

/// Whether a place of the span's part lies on it.
/// @param arc  0 <= arc < length of the loop [m]
bool holds(const BurnSpan& span, int loop, double arc);

/// Whether anything is burnt or worse in a step.
bool burns(const BurnMap& map, std::size_t step);

}  // namespace thinspot::solver
