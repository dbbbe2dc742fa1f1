#pragma once

#include "solver/result.hpp"
#include "solver/schedule.hpp"

#include <vector>

namespace thinspot::solver {

/// Faces, spots, surface points and sums of one part; bands still empty.
struct DescribedPart {
  PartResult part;
  std::vector<int> node;  ///< of the coat, for each surface point; -1: dry
};
DescribedPart describe_part(const Schedule& schedule, const Case& c,
                            std::size_t part);

/// Real area of the points whose current density lies within a range [m2].
double area_within(const std::vector<SurfacePoint>& surface, double low,
                   double high);

}  // namespace thinspot::solver
