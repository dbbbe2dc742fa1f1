#pragma once

#include "solver/sensitivity.hpp"

#include <optional>
#include <string>

namespace thinspot::tests {

/// Compares the derivatives of all figures of a case (extremes and means of
/// parts, probes, voltages of the first two steps) by all inputs that are not
/// 0 with central differences of the same discrete problem: its meshes kept,
/// its windows where they are, every step solved again. They are to agree
/// within 1e-6 of the figure over the input.
solver::Sensitivities compare(const solver::Case& c);

/// Derivative by one input, over the figure itself.
std::optional<double> share_by(const solver::Sensitivities& s,
                               const std::string& key, std::size_t figure = 0);

}  // namespace thinspot::tests
