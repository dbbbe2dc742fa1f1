#pragma once

#include "mesh/module.hpp"
#include "solver/result.hpp"

#include <string>

namespace thinspot::io {

/// What thinspot-files.so does: files' texts by VTK, which takes longer to load
/// than the rest of the program. As io/vtk_data.hpp says of each; empty where
/// VTK writes nothing.
struct FilesByVtk {
  std::string (*section)(const solver::Result&);
  std::string (*surface)(const solver::Result&);
  std::string (*part)(const solver::Result&);
};

/// VTK takes 23 MB for it (measured).
inline constexpr mesh::ModuleFile files_module{"thinspot-files", 64u << 20};

// Inside the module alone.
std::string section_by_vtk(const solver::Result& result);
std::string surface_by_vtk(const solver::Result& result);
std::string part_by_vtk(const solver::Result& result);

}  // namespace thinspot::io
