#pragma once

#include "solver/result.hpp"
#include "viz/contours_module.hpp"

#include <memory>
#include <utility>
#include <vector>

namespace thinspot::viz {

/// The field in the liquid as lines and regions to draw.
class LiquidField {
 public:
  /// @pre the result holds potential and current density at every node.
  explicit LiquidField(const solver::Result& result);

  /// Lines of equal potential [V].
  std::vector<Chain> equipotential(double volts) const;

  /// Where the current density is at least each level [A/m2], levels rising:
  /// closed chains, to be filled even-odd.
  std::vector<std::vector<Chain>> regions_above(
      const std::vector<double>& levels) const;

  /// The line along which current comes to `seed`, from the seed upstream to
  /// where it leaves its electrode. @returns fewer than two points where the
  /// seed is not in the liquid.
  Chain upstream(const mesh::Point& seed) const;

  double lowest_potential() const { return lowest_; }    ///< [V]
  double highest_potential() const { return highest_; }  ///< [V]

  /// Current density [A/m2] below which the share of the liquid's section
  /// lies.
  double current_density_quantile(double share) const;

 private:
  std::unique_ptr<const Contours> contours_;
  double lowest_ = 0, highest_ = 0;
  std::vector<std::pair<double, double>> strengths_;  ///< [A/m2], area; sorted
};

}  // namespace thinspot::viz
