#pragma once

#include "solver/case.hpp"
#include "solver/response.hpp"
#include "solver/supply.hpp"

#include <Eigen/Core>

#include <functional>
#include <vector>

namespace thinspot::solver {

/// A response, or one and the same at several turns of its parts, on r basis
/// functions in place of the nodes: Galerkin's method on potentials that
/// working points of the same set-up have at the electrodes. The set-up has few
/// knobs (currents, conductivity, polarization, turn), so that some dozen
/// functions stand for some hundred nodes; how well is measured on working
/// points that the basis does not know. Held electrodes, those whose law has
/// no resistance, have a function each that is 1 there; they come first and in
/// order. The others are 0 there.
struct ReducedResponse {
  Eigen::MatrixXd basis;                   ///< potential at nb rows x r [V]
  Eigen::Index held = 0;                   ///< electrodes that are held
  std::vector<Eigen::MatrixXd> stiffness;  ///< of each turn, r x r, at
                                           ///< conductivity 1
  std::vector<Eigen::MatrixXd> reaction;   ///< of each turn where any are held:
                                           ///< nb x r, at conductivity 1
  /// Of the parts' current densities, at most, over their means, in working
  /// points that the basis was not made of.
  double error = 0;
  int samples = 0;  ///< working points that the basis was made of

  Eigen::Index size() const { return basis.cols(); }

  /// Coordinates for one volt behind each law, and for the rest of tangents:
  /// as UnitAnswers::potential.
  Eigen::MatrixXd answer(const Electrodes& electrodes, std::size_t turn,
                         double conductivity, const LocalLaws& laws) const;
};

/// A working point to learn from.
struct Sample {
  std::size_t turn = 0;
  WorkingPoint point;
  double conductivity = 0;  ///< [S/m]
};

/// @param turned   the response at each turn
/// @param conductivity, laws  of the set-up as it is; laws without resistance
///                 are held
/// @param sample   the k-th working point; nothing where there is none
/// @param wanted   relative error of the parts' current densities
/// @param parts    electrodes that are parts
/// @throws NoResultError where the most samples do not get there.
ReducedResponse reduced(const std::vector<Response>& turned,
                        double conductivity, const LocalLaws& laws,
                        const std::function<std::optional<Sample>(int)>& sample,
                        double wanted, const std::vector<std::size_t>& parts);

}  // namespace thinspot::solver
