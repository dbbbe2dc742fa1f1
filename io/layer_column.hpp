#pragma once

#include "solver/result.hpp"

#include <string>

namespace thinspot::io {

/// What a layer's thickness is called in tables and data files, as in
/// "layer_2_nickel_um": with no sign that a reader may stumble over.
/// @param layer  index into Result::layers
std::string layer_column(const solver::Result& result, std::size_t layer);

}  // namespace thinspot::io
