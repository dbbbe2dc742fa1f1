#pragma once

#include <optional>
#include <vector>

namespace thinspot::viz {

/// Points that lie beside each other along a key.
struct Bin {
  std::vector<double> values;  ///< of the figure
  double middle = 0;           ///< median of the key
  double median() const;
  double mean() const;
};

/// At most about so many bins with as good as equally many points; points with
/// the same key are never parted.
/// @param at  the key, `values` the figure, one of each point; those whose
///            value is no result are left out
std::vector<Bin> binned(const std::vector<double>& at,
                        const std::vector<double>& values);

/// What share of the figure's variance its means over bins tell, 0 .. 1, less
/// what as many bins would tell of numbers by lot (epsilon squared): one minus
/// the variance within the bins over that of all, each by its degrees of
/// freedom. None where too few points, or none that differ, are there.
/// Source: T. L. Kelley 1935, Proc. Natl. Acad. Sci. 21, 554-559 (from memory).
std::optional<double> explained_share(const std::vector<Bin>& bins);

}  // namespace thinspot::viz
