#pragma once

#include "solver/supply.hpp"

#include <vector>

namespace thinspot::solver {

/// The electrodes of a case whose laws are no straight lines, and the
/// overpotentials at which their tangents are taken: Newton's method on the
/// response. Where a step leaves what a tangent knows it is cut short
/// (LawCurve::limited_step).
class CurvedLaws {
 public:
  /// @param begin  of the same electrodes: whose overpotentials to begin with,
  ///               where they are on as many edges
  /// @throws InputError where the current that is set is more than mass
  ///         transfer can bring to the cathodes.
  CurvedLaws(const Response& response, const Case& c, const SectionScale& scale,
             const WorkingPoint* begin);

  bool any() const { return !each_.empty(); }

  /// Tangents at the overpotentials, into the laws of their electrodes.
  void put(std::vector<ElectrodeLaw>& laws) const;

  /// Overpotentials to try next, from what the tangents gave.
  /// @returns how far the laws are from the tangents there, at most, over the
  ///          largest current density.
  double follow(const WorkingPoint& w);

 private:
  struct One {
    std::size_t electrode = 0;
    LawCurve curve;
    bool anode = false;
    double series = 0;  ///< of its bag [ohm m2]
    OverPotentials over;
  };
  OverPotentials even(const Electrode& electrode, double over) const;

  const Response& response_;
  std::vector<One> each_;
};

}  // namespace thinspot::solver
