#pragma once

#include "mesh/generate.hpp"
#include "mesh/mesh.hpp"
#include "mesh/section.hpp"
#include "solver/case.hpp"
#include "solver/response.hpp"
#include "solver/supply.hpp"
#include "solver/surface.hpp"

#include <vector>

namespace thinspot::solver {

/// Everything that depends on the drawing alone: paid for once, asked often.
struct Model {
  mesh::Section section;
  mesh::Mesh mesh;
  Response response;
  std::vector<Surface> surfaces;  ///< one a part
  SectionScale scale;
  double mesh_seconds = 0;
  double response_seconds = 0;
};

/// @throws InputError where the drawing is at fault, or where nothing tells
///         how deep a planar section is.
/// @throws NoResultError where it cannot be meshed or factored.
Model build_model(const Case& c);

/// The same on a mesh that is there already, of that section.
Model build_model(const Case& c, mesh::Section section, mesh::Mesh mesh);

/// The same with the mesh's response there too.
Model build_model(const Case& c, mesh::Section section, mesh::Mesh mesh,
                  Response response);

/// What the mesh of a case must resolve.
mesh::Grading grading_of(const Case& c);

/// Depth for which the drawn perimeter has the part's real area [m]; 1 where
/// the section is axisymmetric and needs none.
/// @throws InputError where neither depth nor area is known.
double section_depth(const Case& c, const mesh::Section& section);

/// The solid that a surface of the model is of.
const mesh::PlacedSolid& solid_of(const Model& model, const Surface& surface);

/// The parts' indices among the section's solids.
std::vector<std::size_t> part_solids(const Case& c);

}  // namespace thinspot::solver
