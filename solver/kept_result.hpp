#pragma once

#include "solver/result.hpp"

#include <string>

namespace thinspot::solver {

/// One solve as its folder keeps it.
struct KeptResult {
  std::string name;  ///< of the folder, as it was given
  /// As much as a comparison asks for: title; cut; of each part name, area,
  /// mass, current, figures with their bands, faces' names, spots, bare
  /// stretches and surface; probes; the cell; of each step duration and cell;
  /// target. Part p is solid p of the section, its outline drawn straight from
  /// point to point.
  Result result;
};

/// Whether thickness has bands at the points of its parts.
bool has_bands(const KeptResult& kept);

/// The outline through a part's surface points, with straight curves from one
/// to the next. Between points of two faces the middle is where they meet;
/// between two on the axis of an axisymmetric section runs the face "axis".
/// What is dry at both ends counts as masked.
mesh::Outline outline_through(const PartResult& part, mesh::Cut cut);

/// Puts a part's outline into the section as its solid, and liquid around all.
/// @pre every solid has its outline
void surround(mesh::Section& section);

/// Words for the place of a surface point, as place_in_words has them; what
/// touches the part and where it leaves the liquid is not known here.
std::string kept_place_in_words(const KeptResult& kept, std::size_t part,
                                std::size_t point);

}  // namespace thinspot::solver
