#pragma once

#include "mesh/generate_side.hpp"
#include "solver/electrodes.hpp"
#include "solver/response.hpp"

#include <Eigen/Core>

namespace thinspot::solver {

/// What lies on one side of the circle about a part, condensed onto the
/// electrodes there and m waves of the circle, as TurningResponse has them. The
/// part inside is paid for once, however tanks and anodes around it change; and
/// a tank once, however the part inside turns or flips.
struct HalfResponse {
  Electrodes electrodes;
  Eigen::MatrixXd condensed;  ///< electrode rows, then 2 m + 1 waves
  int waves = 0;              ///< m

  Eigen::Index rows() const { return condensed.rows() - 2 * waves - 1; }
};

/// @param mesh  of that side alone, of a section with one disc
/// @throws NoResultError where the system cannot be factored.
HalfResponse half_response(const mesh::Mesh& mesh, const mesh::Section& section,
                           mesh::DiscSide side, int waves);

/// Both halves as one response.
/// @param part    the part's index among the solids of the outside's section
/// @param motion  of the part inside, from how its half was made
/// @pre both halves have as many waves
/// @throws NoResultError where the circle's system is not definite.
Response joined(const HalfResponse& inside, const HalfResponse& outside,
                std::size_t part, const mesh::Motion& motion);

}  // namespace thinspot::solver
