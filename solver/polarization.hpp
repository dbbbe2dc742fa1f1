#pragma once

#include "solver/case.hpp"

#include <optional>

namespace thinspot::solver {

/// Gas constant [J/(mol K)], exact since the 2019 SI.
inline constexpr double kGasConstant = 8.31446261815324;

/// A law as a curve: current density over the overpotential without the
/// offset, both positive in the direction in which the electrode works.
///   linear         over = R i - (RT/nF) ln(1 - i/iL)
///   Tafel          i = i0 E / (1 + i0 E/iL),           E = exp(over/b)
///   Butler-Volmer  i = i0 (E - E')/(1 + i0 E/iL),      E' = exp(-over/b')
/// with iL infinite where mass transfer sets no bound. Source of the forms with
/// a limit: Newman, Electrochemical Systems (from memory), for the ion that
/// takes n electrons in one step.
class LawCurve {
 public:
  /// @param limiting  bound of the density; empty: none [A/m2]
  LawCurve(const Polarization& p, const Solution& solution,
           std::optional<double> limiting);

  /// False where density is over/R everywhere.
  bool curved() const { return curved_; }

  struct Point {
    double density = 0;  ///< [A/m2]
    double slope = 0;    ///< d density / d over, above 0 [A/(m2 V)]
  };
  Point at(double over) const;

  /// How the density at an overpotential changes by the law's own numbers.
  struct ByNumbers {
    double resistance = 0;          ///< [A2/(m4 V)]
    double exchange = 0;            ///< by the exchange current density
    double slope = 0, reverse = 0;  ///< by volts a decade [A/(m2 V)]
    double limit = 0;               ///< by the limiting current density
  };
  ByNumbers by_numbers(double over) const;

  /// Overpotential of a density [V]; nothing where no overpotential reaches it.
  std::optional<double> over(double density) const;

  /// Where to look next, from `from` towards `to`: no further than where the
  /// tangent at `from` still tells something of the curve. Steps that are small
  /// against its bend are left as they are.
  double limited_step(double from, double to) const;

 private:
  Point linear_at(double over) const;
  Point exponential_at(double over) const;

  Law law_;
  bool curved_ = false;
  double resistance_ = 0;
  double exchange_ = 0, slope_ = 0, reverse_ = 0;  ///< e-fold [V]
  double inverse_limit_ = 0;                       ///< 1/iL [m2/A]
  double concentration_ = 0;                       ///< RT/nF [V]
};

/// The bound that holds for an electrode's law: of cathodes whose law asks for
/// it, what the solution brings to them [A/m2].
std::optional<double> limit_for(const Polarization& p, const Solution& s,
                                bool anode);

/// The linear law that touches it at a current density; a linear law that
/// mass transfer does not bound stays as it is. Beyond the bound: at 95 % of
/// it.
Polarization linearized(const Polarization& p, const Solution& solution,
                        bool anode, double density);

/// Taken where nothing tells how much current flows [A/m2].
inline constexpr double kUsualDensity = 100;

/// True where any electrode's law is no straight line.
bool has_curved_laws(const Case& c);

/// Mean current density of the cathodes that the supplies are set to [A/m2];
/// nothing where any holds a voltage.
/// @param area  of all cathodes [m2]
std::optional<double> set_density(const Case& c, double area);

/// For estimates: every law linearized at the density that is set, or at a
/// usual one.
/// @param cathodes, anodes  areas [m2]
Case with_linear_laws(Case c, double cathodes, double anodes);

}  // namespace thinspot::solver
