#pragma once

#include "mesh/mesh.hpp"
#include "mesh/section.hpp"
#include "solver/model.hpp"
#include "solver/turning_response.hpp"

#include <memory>
#include <optional>
#include <span>

namespace thinspot::solver {

/// A section whose parts turn in free circles: meshed and condensed once, asked
/// at any angle.
struct Turnable {
  mesh::Section section;  ///< with its discs, as the mesh was made
  mesh::Mesh mesh;
  std::shared_ptr<const TurningResponse> response;
  mesh::Motion motion;  ///< of the parts in that section
  double mesh_seconds = 0;
  double response_seconds = 0;
};

/// Waves that a circle needs so that leaving out the rest changes currents by
/// this share at most; about (reach / free)^(2 m).
int waves_for(const mesh::TurningDisc& disc, double share);

/// @param waves  of each circle; 0: as many as the tolerance wants
/// @returns nothing where a part has no free circle, or so narrow a one that
///          more waves are needed than a mesh for every angle costs, or where
///          there is more metal than one dense response can be of.
std::optional<Turnable> build_turnable(const Case& c, int waves = 0);

/// Refined inside and outside of the circles.
/// @returns nothing where that is too large.
std::optional<Turnable> refined(const Turnable& turnable,
                                std::span<const int> triangles);

/// The model of a case that stands as the turnable but for its parts' turn.
Model turned_model(const Turnable& turnable, const Case& c);

/// The response at a case's turn.
/// @param fewer  waves to leave out
Response turned_response(const Turnable& turnable, const Case& c, int fewer);

}  // namespace thinspot::solver
