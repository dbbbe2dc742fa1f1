#pragma once

#include "viz/sweep_chart.hpp"

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

namespace thinspot::tests {

/// What of a point has no result.
double no_result();

/// "thinnest significant spot" in um, wanted 10.
viz::SweptFigure thinnest_spot();

/// "anode.sheet.gap": 10, 11, 12 ... mm.
viz::SweptKey gaps(std::size_t count);

/// "supply.current": 0.1, 0.2 ... A.
viz::SweptKey currents(std::size_t count);

/// A key that was set to words.
viz::SweptKey worded(const std::vector<std::string>& words);

/// A grid of a function of column and row.
viz::SweepMap grid(const viz::SweptKey& x, const viz::SweptKey& y,
                   const std::function<double(std::size_t, std::size_t)>& of);

/// Column + row.
viz::SweepMap slope(const viz::SweptKey& x, const viz::SweptKey& y);

/// A path of a picture: its fill, its "d", what a pointer is told.
struct DrawnPath {
  std::string fill, dash, d, title;
};

std::vector<DrawnPath> drawn_paths(const std::string& svg);

/// Those whose title holds these words, in the order drawn.
std::vector<DrawnPath> paths_told(const std::string& svg,
                                  const std::string& words);

/// Sound, and nothing outside of the view box.
void check_sweep_picture(const std::string& svg, std::size_t least);

}  // namespace thinspot::tests
