#pragma once

#include "viz/window_data.hpp"

#include <string>
#include <utility>
#include <vector>

namespace thinspot::viz {

/// What steps.pvd names.
struct Collection {
  std::vector<std::pair<double, std::string>> surfaces;  ///< minutes, file
  std::string liquid;                                    ///< file; empty: none
};

/// The text of a file by VTK's readers, which may crash on a damaged one: to be
/// called in a child process.
/// @throws NoResultError saying what is wrong with it.
Collection parse_collection(const std::string& text);
SurfaceData parse_surface(const std::string& text);
LiquidData parse_liquid(const std::string& text);

/// The way from the child process and back.
std::string to_bytes(const Collection& collection);
std::string to_bytes(const SurfaceData& surface);
std::string to_bytes(const LiquidData& liquid);
Collection collection_from(const std::string& bytes);
SurfaceData surface_from(const std::string& bytes);
LiquidData liquid_from(const std::string& bytes);

}  // namespace thinspot::viz
