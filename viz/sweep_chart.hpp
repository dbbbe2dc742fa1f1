#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace thinspot::viz {

/// One varied key of a sweep.
struct SweptKey {
  std::string name;  ///< as the user wrote it: "anode.sheet.gap"
  std::string unit;  ///< "mm"; empty: none
  /// What it was set to, rising where they are numbers.
  std::vector<double> values;
  /// Where it was set to words, one for each value, which then are 0, 1, 2 ...
  std::vector<std::string> words = {};
  bool by_factor = false;  ///< values are spaced by factor
};

/// Which way a figure gets better.
enum class Better { more, less, neither };

/// A figure that was computed for each point.
struct SweptFigure {
  std::string name;                   ///< "thinnest significant spot"
  std::string unit;                   ///< "um"; empty: a ratio
  std::optional<double> wanted = {};  ///< a line at that value: the target
  /// Which side of `wanted` meets it, and which point is the best; neither: no
  /// side and no point.
  Better better = Better::more;
};

/// A whole grid over two keys.
struct SweepMap {
  SweptKey x, y;
  /// Said above: what other keys were set to, where there are such.
  std::string where = {};
  /// Row by row, x fastest; NaN where the point has no result.
  std::vector<double> values;
  /// Points that burn, whatever their figure: none of them is marked as the
  /// best. Empty: none is.
  std::vector<bool> burns = {};
};

/// One curve of a figure over a key.
struct SweepCurve {
  std::string name;  ///< "supply.current = 0.4 A"; empty: the only one
  std::vector<double> values;  ///< NaN where there is no result
};

}  // namespace thinspot::viz
