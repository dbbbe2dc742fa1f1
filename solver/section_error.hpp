#pragma once

#include "mesh/section.hpp"

#include <optional>

namespace thinspot::solver {

/// How a planar section of a disc misleads: values of the disc itself, from an
/// axisymmetric solution, over those of the planar section through its axis.
struct DiscRatios {
  double least = 1;    ///< of least over mean, disc / section
  double largest = 1;  ///< of largest over mean
};

/// Both ratios run from about 0.79 (primary) to 1 (even). Table computed by
/// this program from a coin of 1:12 between far electrodes, each way (coins of
/// 1:25 and 1:6 differ by 0.01 at most, 0.03 in the largest at Wagner numbers
/// below 0.1), and recomputed by tests/verification; the primary limit is
/// (1/2)/(2/pi) = 0.785 for a disc in a plane against a strip (Newman 1966 for
/// the disc).
/// @param wagner  conductivity times polarization resistance over the disc's
///                radius
DiscRatios disc_ratios(double wagner);

/// The ratios where the part is a disc cut upright or from above.
std::optional<DiscRatios> section_error(const mesh::Section& section,
                                        std::size_t part, double wagner);

}  // namespace thinspot::solver
