#pragma once

#include "solver/certify.hpp"

#include <vector>

namespace thinspot::tests {

struct CertifiedFigure {
  double value, bar, scale;  ///< scale: what a tolerance is a share of
};

/// All figures of a solved case that have a mesh error bar.
std::vector<CertifiedFigure> figures(const solver::Certified& s);

}  // namespace thinspot::tests
