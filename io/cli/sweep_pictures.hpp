#pragma once

#include "io/sweep.hpp"
#include "io/sweep_store.hpp"

#include <string>
#include <utility>
#include <vector>

namespace thinspot::io::cli {

/// Name and SVG of each picture of a sweep: of a grid over one key curves, over
/// more heat maps of the two with most values and, where one of these has few,
/// curves over the other; of a sample each figure against each key.
/// @throws OutputError where the database cannot be read.
std::vector<std::pair<std::string, std::string>> sweep_pictures(
    const Sweep& sweep, const SweepStore& store);

/// Names of pictures that another sweep may have left where these go.
std::vector<std::string> other_pictures(
    const std::vector<std::pair<std::string, std::string>>& pictures);

}  // namespace thinspot::io::cli
