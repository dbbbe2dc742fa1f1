#pragma once

#include "io/words.hpp"

#include <string>
#include <vector>

namespace thinspot::io {

/// What each layer has become, one sentence or two a layer: metal, thickness,
/// current, time, its own target.
/// @pre result.layers is not empty
std::vector<std::string> layer_words(const solver::Result& result);

/// Puts into words that speak of all layers together what each has to say:
/// targets, meter, shares, unconnected metal, Wagner number.
/// @pre result.layers is not empty
void speak_of_layers(const solver::Result& result, Words& words);

}  // namespace thinspot::io
