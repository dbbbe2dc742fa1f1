#pragma once

#include "mesh/errors.hpp"

#include <exception>
#include <string>

namespace thinspot::mesh {

/// Gmsh's state is global: one session at a time holds it, with an empty model
/// and options that neither print nor read files of the user's.
class GmshSession {
 public:
  GmshSession();
  ~GmshSession();
  GmshSession(const GmshSession&) = delete;
  GmshSession& operator=(const GmshSession&) = delete;
};

/// Runs work in a session of its own.
/// @throws NoResultError as the work does, and for whatever else Gmsh and
///         OpenCASCADE throw.
template <class Work>
auto in_session(Work work) {
  const GmshSession session;
  try {
    return work();
  } catch (const NoResultError&) {
    throw;
  } catch (const std::exception& error) {
    throw NoResultError(std::string("the geometry kernel failed: ") +
                        error.what());
  } catch (...) {
    throw NoResultError("the geometry kernel failed");
  }
}

}  // namespace thinspot::mesh
