#pragma once

#include "solver/result.hpp"

#include <string>

namespace thinspot::viz {

/// The section with equipotentials, current lines, the coating as a band over
/// the surface (exaggerated, with its scale), thin and heavy spots. SVG text;
/// needs no display.
std::string section_picture(const solver::Result& result);

}  // namespace thinspot::viz
