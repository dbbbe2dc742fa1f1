#pragma once

#include "solver/interval.hpp"
#include "solver/moved_inputs.hpp"
#include "solver/section_error.hpp"

#include <optional>
#include <vector>

namespace thinspot::solver {

/// How a part's planar section misleads about its current density at the end
/// of a layer.
std::optional<DiscRatios> section_error_in(const Schedule& schedule,
                                           const LayerOfSteps& layer,
                                           std::size_t part);

/// About its thickness, of all layers by what each brings to the part.
std::optional<DiscRatios> section_error_of_all(
    const Schedule& schedule, const std::vector<LayerOfSteps>& layers,
    std::size_t part);

/// The ratio at a place of the surface: straight between least and largest, by
/// its thickness. A disc in a plane against a strip has one and the same ratio
/// at every radius.
double ratio_at(const DiscRatios& ratios, const Spread& thickness, double here);

/// Half width downwards with the section's error in it, which is of one sign.
double down_with(double down, double value, double ratio);

/// Lowers a band by the section's error.
void stretch_low(Interval& band, double ratio, double value);

}  // namespace thinspot::solver
