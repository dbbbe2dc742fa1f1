#pragma once

#include "mesh/curve.hpp"
#include "solver/case.hpp"
#include "solver/reading.hpp"

namespace thinspot::solver {

/// A trapezoidal test cell of 267 ml with a case's solution, the polarization
/// of its cathode, its first anode and its supply's leads: the panel fills the
/// slanted wall, the anode the upright one. Clear sizes: 47.6 mm along the near
/// wall, 127 mm along the far one, 63.5 mm between them (1 7/8, 5 and 2 1/2
/// inches; from memory).
/// @throws InputError where the case has no anode.
Case panel_case(const Case& c, const TestCell& cell);

/// On that panel, a distance from its end near the anode [m].
mesh::Point on_panel(double distance);

/// What the near cathode gains over what the far one does, in a trough of even
/// section with an anode of gauze between them. Each branch is one-dimensional:
/// its overpotentials and i l / kappa add up to the one voltage of both. A
/// slope stated at a density holds at the mean of both cathodes. With straight
/// laws it is (K + W) / (1 + W), where K = far over near and W = kappa (R of
/// cathode and anode) / near.
double mass_ratio(const Case& c, const TestCell& cell);

}  // namespace thinspot::solver
