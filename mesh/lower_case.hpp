#pragma once

#include <string>

namespace thinspot::mesh {

/// Capital letters of ASCII made small; all else stays.
std::string lower_case(std::string text);

}  // namespace thinspot::mesh
