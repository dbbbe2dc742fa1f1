#pragma once

#include "solver/result.hpp"

#include <cstddef>
#include <functional>
#include <vector>

namespace thinspot::solver {

/// Means along a loop of surface points, of what runs straight from one to the
/// next; they stop where points are left out and where the loop begins.
class SlidingMean {
 public:
  /// @param first, last  the loop is first .. last-1
  /// @param taken        which points of the part's surface count
  /// @param window       that a mean is taken over, half to each side [m]
  SlidingMean(const PartResult& part, std::size_t first, std::size_t last,
              const std::vector<char>& taken, double window)
      : part_(part),
        first_(first),
        last_(last),
        taken_(taken),
        window_(window) {}

  /// @pre the point counts
  double at(std::size_t point,
            const std::function<double(std::size_t)>& value) const;

 private:
  const PartResult& part_;
  std::size_t first_, last_;
  const std::vector<char>& taken_;
  double window_;
};

}  // namespace thinspot::solver
