#include "solver/limiting_current.hpp"

#include "solver/deposit.hpp"
#include "solver/ions.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

namespace {

constexpr double kShare = 0.75;  // of the diffusivity in much water
constexpr double kShareSpread = 0.20;
constexpr double kPerKelvin = 0.022;  // [1/K]
constexpr double kGravity = 9.81;     // [m/s2]
// Of copper sulfate, from memory: how density and viscosity grow with a mole in
// each litre.
constexpr double kDensification = 0.14e-3;  // relative [m3/mol]
constexpr double kThickening = 0.6e-3;      // relative [m3/mol]
constexpr double kViscosity = 1e-6;         // of water [m2/s]
/// Of the correlation where metal is no plate alone in a tank; from memory.
constexpr double kShapeSpread = 0.35;
/// Migration cannot help without bound: activity and water's own ions step in.
constexpr double kMostCarried = 0.6;

}  // namespace

Quantity diffusion_layer(const std::string& stirring) {
  if (stirring == "gentle") return {0.13e-3, 0.07e-3};
  if (stirring == "strong") return {0.065e-3, 0.035e-3};
  if (stirring == "rotating") return {0.05e-3, 0.03e-3};
  return {0.25e-3, 0.15e-3};
}

double natural_layer(double concentration, double diffusivity, double height) {
  const double viscosity = kViscosity * (1 + kThickening * concentration);
  const double grashof_schmidt = kGravity * kDensification * concentration *
                                 std::pow(height, 3) /
                                 (viscosity * diffusivity);
  return height / (0.67 * std::pow(grashof_schmidt, 0.25));
}

Quantity diffusivity_in_solution(const std::string& cation,
                                 double temperature) {
  const double value = kShare * diffusivity(*find_ion(cation)) *
                       std::exp(kPerKelvin * (temperature - kRoomTemperature));
  return {value, kShareSpread * value};
}

std::optional<Quantity> limiting_current(const IonSupply& ions) {
  if (!find_ion(ions.cation) || ions.concentration <= 0) return std::nullopt;
  const Quantity d = diffusivity_in_solution(ions.cation, ions.temperature);
  const double each = ions.electrons * kFaraday * d.value * ions.concentration /
                      (1 - std::min(ions.carried, kMostCarried));
  const double own_spread = d.plus_minus / d.value;
  if (ions.stirring == "still" && ions.height && *ions.height > 0) {
    const double value =
        each / natural_layer(ions.concentration, d.value, *ions.height);
    return Quantity{value, value * std::hypot(own_spread, kShapeSpread)};
  }
  const Quantity layer = diffusion_layer(ions.stirring);
  const double low = each / (layer.value + layer.plus_minus);
  const double high = each / (layer.value - layer.plus_minus);
  const double value = (low + high) / 2;
  return Quantity{
      value,
      std::min(0.95 * value, std::hypot((high - low) / 2, own_spread * value))};
}

}  // namespace thinspot::solver
