#include "mesh/gmsh_session.hpp"

#include <gmsh.h>

#include <mutex>

namespace thinspot::mesh {

namespace {

// Kept initialised for the life of the process: a new start for each mesh
// costs more than the mesh.
void start_once() {
  static std::once_flag once;
  std::call_once(once, [] {
    gmsh::initialize(0, nullptr, false);
    gmsh::option::setNumber("General.Terminal", 0);
    gmsh::option::setNumber("General.NumThreads", 1);
    gmsh::option::setNumber("Geometry.OCCParallel", 0);
    // Sizes come from the callback alone.
    gmsh::option::setNumber("Mesh.MeshSizeExtendFromBoundary", 0);
    gmsh::option::setNumber("Mesh.MeshSizeFromPoints", 0);
    gmsh::option::setNumber("Mesh.MeshSizeFromCurvature", 0);
    // Otherwise short arcs silently get more edges than asked for.
    gmsh::option::setNumber("Mesh.MinimumCirclePoints", 0);
    gmsh::option::setNumber("Mesh.MinimumCurvePoints", 0);
    // Three times faster than the defaults (measured), with equal accuracy.
    gmsh::option::setNumber("Mesh.LcIntegrationPrecision", 1e-2);
    gmsh::option::setNumber("Mesh.Smoothing", 0);
  });
}

}  // namespace

GmshSession::GmshSession() {
  start_once();
  gmsh::clear();
  gmsh::model::add("section");
}

GmshSession::~GmshSession() {
  try {
    gmsh::model::mesh::removeSizeCallback();
    gmsh::clear();
  } catch (...) {
    // Nothing to save: the next session clears again.
  }
}

}  // namespace thinspot::mesh
