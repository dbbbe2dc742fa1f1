#pragma once

#include "solver/result.hpp"

#include <string>

namespace thinspot::io::cli {

/// One row a face of a part; cut short where there are many.
/// @param named  the heading says which part
std::string face_table(const solver::PartResult& part, bool named);

/// One row a copy on the rack; where there are many, the thinnest and the
/// heaviest by their means.
std::string copy_table(const solver::Result& result);

}  // namespace thinspot::io::cli
