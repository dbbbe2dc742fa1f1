#pragma once

#include "mesh/section.hpp"
#include "solver/case.hpp"
#include "solver/half_response.hpp"
#include "solver/surface.hpp"

#include <array>
#include <memory>

namespace thinspot::solver {

/// Radii of the circles, over the part's reach.
inline constexpr std::array<double, 4> kCircles{1.8, 1.5, 1.3, 1.18};

/// The one part of a case with the liquid about it, inside of circles of
/// several sizes: each made when it is asked for first, kept for every tank and
/// every place in it.
class FreePart {
 public:
  /// @pre the case has one part
  explicit FreePart(const Case& c);

  struct Inside {
    HalfResponse half;
    Surface surface;    ///< of the part; its electrode is that of `half`
    double radius = 0;  ///< of the circle [m]
  };

  /// The largest circle that leaves the way to what comes next in good shares.
  /// @param disc  as mesh::free_discs has it
  /// @returns nullptr where there is too little room for any
  /// @throws NoResultError where its inside cannot be meshed
  const Inside* inside(const mesh::TurningDisc& disc);

 private:
  Inside made(double radius, int waves) const;

  Case alone_;  ///< the part far from all else
  std::array<std::unique_ptr<Inside>, kCircles.size()> made_;
};

}  // namespace thinspot::solver
