#pragma once

#include "solver/case.hpp"

#include <optional>
#include <string>

namespace thinspot::solver {

/// What a metal's ions can be carried to the part by.
struct IonSupply {
  std::string cation;        ///< as in find_ion
  int electrons = 2;         ///< taken up by each ion
  double concentration = 0;  ///< [mol/m3]
  double carried = 0;        ///< share of the current that they carry, 0 to 1
  double temperature = 298.15;  ///< [K]
  std::string stirring = "still";
  /// Of upright metal, for a still solution [m]; not known: any.
  std::optional<double> height;
};

/// Diffusion layer at the part by how the solution moves [m], without sign of
/// the natural convection: from memory, common practice.
Quantity diffusion_layer(const std::string& stirring);

/// At an upright plate in a still solution, mean over its height [m]: Wilke,
/// Eisenberg and Tobias 1953, Sh = 0.67 (Gr Sc)^(1/4); from memory.
/// @param concentration  of the metal [mol/m3]
/// @param diffusivity    [m2/s]
double natural_layer(double concentration, double diffusivity, double height);

/// Diffusivity of a metal's ions in a plating solution [m2/s]: three quarters,
/// give or take a fifth, of that in much water, 2.2 % more with each kelvin;
/// from memory.
/// @pre find_ion knows it
Quantity diffusivity_in_solution(const std::string& cation, double temperature);

/// Largest current density at which metal still arrives:
///   n F D c / (layer (1 - carried)).
/// @returns nothing where the ion is not known.
std::optional<Quantity> limiting_current(const IonSupply& ions);

}  // namespace thinspot::solver
