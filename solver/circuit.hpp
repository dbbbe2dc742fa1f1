#pragma once

#include "solver/case.hpp"
#include "solver/response.hpp"

#include <Eigen/Core>

#include <memory>
#include <vector>

namespace thinspot::solver {

/// What stands behind each electrode of the response, in its order.
struct ElectrodeLaw {
  bool anode = false;     ///< on the plus rail; else on minus, unless floating
  bool floating = false;  ///< on no rail: its net current is zero
  bool part = false;
  /// At its working point, bag included; of a curved law the mean slope
  /// [ohm m2].
  double resistance = 0;
  double open_circuit = 0;    ///< anodes: voltage at zero current [V]
  double offset = 0;          ///< of the law [V]
  double series = 0;          ///< between its metal and its rail [ohm]
  std::size_t rectifier = 0;  ///< anodes: whose plus rail
  /// Of a curved law, at the working point; nullptr where it is linear.
  std::shared_ptr<const Tangent> tangent = {};
};

/// The law that holds at a solid: its own, or the cathode's.
const Polarization& polarization_of(const Case& c, std::size_t solid);

/// @returns nullptr where the solid is no anode.
const Anode* anode_of(const Case& c, std::size_t solid);

/// Laws with the resistances as stated, before any rescaling.
std::vector<ElectrodeLaw> laws_of(const Case& c, const Electrodes& electrodes);

/// What a law's offset moves the metal's own potential by [V].
double shift(const ElectrodeLaw& law);

/// Resistance of each law [ohm m2].
std::vector<double> resistances_of(const std::vector<ElectrodeLaw>& laws);

/// The same for the response, with the tangents of curved ones.
LocalLaws local_laws(const std::vector<ElectrodeLaw>& laws);

/// Potential behind each law [V], for a voltage between the rails, minus at 0:
/// the metal's own potential, which a resistance in its lead shifts and which
/// floating metal finds by itself, and the law's offset; last the 1 that the
/// rest of tangents goes with, where there are any.
/// @param conductance  currents out of the liquid over drives [A/V]
Eigen::VectorXd drives(const std::vector<ElectrodeLaw>& laws,
                       const Eigen::MatrixXd& conductance, double voltage);

/// The same where each rectifier has a plus rail of its own [V].
Eigen::VectorXd drives(const std::vector<ElectrodeLaw>& laws,
                       const Eigen::MatrixXd& conductance,
                       const Eigen::VectorXd& rails);

}  // namespace thinspot::solver
