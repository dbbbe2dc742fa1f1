#pragma once

#include "solver/comparison.hpp"

#include <vector>

namespace thinspot::solver {

/// The numbers that both results have in common, in the order in which they are
/// told. Of a rack: over all copies.
std::vector<Figure> compared_figures(const Result& a, const Result& b);

/// One of them; nullptr where there is none.
const Figure* figure_of(const std::vector<Figure>& figures, Figure::Of of);

}  // namespace thinspot::solver
