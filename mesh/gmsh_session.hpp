#pragma once

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

}  // namespace thinspot::mesh
