#pragma once

#include "solver/result.hpp"

#include <memory>
#include <vector>

namespace thinspot::viz {

/// A chain of points in the section [m]; closed ones do not repeat the first.
using Chain = std::vector<mesh::Point>;

/// The field in the liquid as lines and regions to draw, by VTK's filters.
class LiquidField {
 public:
  /// @pre the result holds potential and current density at every node.
  explicit LiquidField(const solver::Result& result);
  ~LiquidField();
  LiquidField(const LiquidField&) = delete;
  LiquidField& operator=(const LiquidField&) = delete;

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

  double lowest_potential() const;   ///< [V]
  double highest_potential() const;  ///< [V]

  /// Current density [A/m2] below which the share of the liquid's section
  /// lies.
  double current_density_quantile(double share) const;

 private:
  struct Data;
  std::unique_ptr<Data> data_;
};

}  // namespace thinspot::viz
