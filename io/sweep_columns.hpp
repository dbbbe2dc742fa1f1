#pragma once

#include "io/sweep_axis.hpp"
#include "solver/set_up_figures.hpp"

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace thinspot::io {

/// A column of a sweep's table.
struct SweepColumn {
  std::string name;     ///< "thickness_min_um"
  std::string unit;     ///< "um"; empty: none
  std::string meaning;  ///< in words, for who reads the table
};

/// An output of each point.
struct SweepOutput : SweepColumn {
  /// In the unit; not a number where the point has none.
  std::function<double(const solver::SetUpFigures&)> of;
};

/// What each point comes to, in their order; probes of the case behind, and
/// bands where they are wanted.
std::vector<SweepOutput> sweep_outputs(const solver::Case& c, bool bands);

/// A column for each varied key, "anode.sheet.gap_mm".
std::vector<SweepColumn> sweep_inputs(const std::vector<SweepAxis>& axes);

/// Which output has a name.
/// @pre there is one
std::size_t output_index(const std::vector<SweepOutput>& outputs,
                         std::string_view name);

}  // namespace thinspot::io
