#pragma once

#include "solver/case.hpp"
#include "solver/interval.hpp"

namespace thinspot::solver {

/// How two cathodes share the deposit in a Haring-Blum cell: a trough with a
/// plate across each end and one gauze anode across it, five times as far from
/// one plate as from the other. Sizes: Soderberg, Plating, March 1952 (a
/// section of 1 dm2, 2.5 cm and 12.5 cm).
struct ThrowingPower {
  double density = 0;     ///< mean over both plates [A/m2]
  double wagner = 0;      ///< conductivity times slope over the near distance
  double mass_ratio = 0;  ///< near plate over far plate
  /// 100 (K - M) / K with K = 5. Source: Soderberg, as above.
  double haring_blum = 0;  ///< [%]
  /// 100 (K - M) / (K + M - 2): 100 even, 0 where distances alone decide, -100
  /// at the worst. Source: S. Field, 1930s, from memory.
  double field = 0;  ///< [%]
  /// From what is not known of conductivity and slope, 95 %.
  Interval mass_ratio_band, haring_blum_band, field_band;
};

/// Distances of the two plates from the gauze [m], and their ratio.
inline constexpr double kNearPlate = 0.025;
inline constexpr double kFarPlate = 0.125;
inline constexpr double kDistanceRatio = kFarPlate / kNearPlate;

/// 100 (K - M) / K [%].
double haring_blum_percent(double distance_ratio, double mass_ratio);
/// 100 (K - M) / (K + M - 2) [%].
/// @pre distance_ratio > 1, mass_ratio > 0
double field_percent(double distance_ratio, double mass_ratio);

/// The cell with the case's own solution and cathode. The slope is taken at
/// the mean over both plates, as one number for both; the gauze is taken as
/// free of polarization, since its wires have several times the area of its
/// outline (common practice, no source).
Case haring_blum_cell(const Case& c, double mean_density);

/// Solves it. Where efficiency goes by current density, each plate has its own.
/// @param mean_density  over the case's own part [A/m2]
/// @throws InputError where the density is not above 0.
/// @throws NoResultError as any solve.
ThrowingPower throwing_power(const Case& c, double mean_density);

}  // namespace thinspot::solver
