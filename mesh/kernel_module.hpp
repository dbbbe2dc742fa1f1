#pragma once

#include <string>

// Inside thinspot-kernel.so alone; what these take and return is in kernel.hpp.
namespace thinspot::mesh {

std::string mesh_there(const std::string& request);
std::string cut_there(const std::string& request);
std::string drawing_there(const std::string& file, bool step);

}  // namespace thinspot::mesh
