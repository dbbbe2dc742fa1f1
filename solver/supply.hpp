#pragma once

#include "solver/case.hpp"
#include "solver/circuit.hpp"
#include "solver/response.hpp"

#include <Eigen/Core>

#include <string>
#include <vector>

namespace thinspot::solver {

/// One of several rectifiers at work.
struct AtRectifier {
  double current = 0;  ///< [A]
  double voltage = 0;  ///< at its terminals [V]
  std::string limited_by;
  bool idle = false;  ///< none of its anodes is at work
};

/// The cell at work: all potentials and currents.
struct WorkingPoint {
  std::vector<ElectrodeLaw> laws;  ///< with resistance at this point
  UnitAnswers answers;             ///< for these resistances
  /// Potential behind each law [V], and the 1 of the tangents' rest.
  Eigen::VectorXd drive;
  Eigen::VectorXd current;      ///< leaving the liquid, each [A]
  double total_current = 0;     ///< part and wires [A]
  double wire_current = 0;      ///< of that, wires [A]
  double terminal_voltage = 0;  ///< [V]
  std::string limited_by;
  std::vector<AtRectifier> rectifiers;  ///< empty: one supply
  /// How far curved laws were from their tangents in each round of the search,
  /// of the largest current density.
  std::vector<double> bent;
  /// The rectifier whose voltage stands for the cell: of the largest current.
  std::size_t leading = 0;
};

/// Scale of the section: what turns currents of the response into amperes.
struct SectionScale {
  double depth = 1;      ///< planar [m]; 1 axisymmetric
  double part_area = 0;  ///< real wetted area of all parts [m2]
  double wire_area = 0;  ///< of all parts, bare and wetted [m2]
};

/// A bare wire takes this many times the part's mean current density: thin
/// and far out, it lies between the part's mean and its edges. Common
/// practice, no source.
inline constexpr double kWireShare = 2.0;

/// Current density that leaves the liquid at the nodes of one electrode, in the
/// order of its rows [A/m2].
Eigen::VectorXd current_density(const Response& response, const WorkingPoint& w,
                                std::size_t electrode);

/// Voltage, drives and currents that the supply's settings ask for, at the
/// point's own laws and answers.
/// @throws NoResultError where no current flows at any voltage.
void operate(WorkingPoint& w, const Case& c, const SectionScale& scale);

/// Where a search for a working point begins.
struct Beginning {
  const WorkingPoint* at = nullptr;  ///< nullptr: nothing is known
  /// Of a case that differs little: the search ends sooner, at 1e-6 of every
  /// resistance. Else of the same case, on this or another mesh of the
  /// electrodes: it ends as from nothing.
  bool near = false;
};

/// Finds the current and voltage that supply, leads and laws agree on.
/// Resistances given at a current density are rescaled to the mean of their
/// electrode: R = R_at * at / mean, which is the slope of a Tafel law. Curved
/// laws are followed by Newton's method on the response.
/// @throws InputError where the voltage cannot overcome the offsets.
/// @throws NoResultError where the rescaling does not settle.
WorkingPoint find_working_point(const Response& response, const Case& c,
                                const SectionScale& scale,
                                const Beginning& begin = {});

}  // namespace thinspot::solver
