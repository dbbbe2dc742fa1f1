#pragma once

#include "mesh/section.hpp"
#include "solver/profile.hpp"
#include "solver/result.hpp"
#include "solver/surface.hpp"

#include <Eigen/Core>

#include <vector>

namespace thinspot::solver {

/// What one step does to one part: where it stands then, and the current
/// density along its surface there.
struct StepOnPart {
  const mesh::PlacedSolid* solid = nullptr;
  const Surface* surface = nullptr;
  const mesh::Mesh* mesh = nullptr;
  const Eigen::VectorXd* density = nullptr;  ///< at the nodes of `surface`
                                             ///< [A/m2]
  double growth = 0;  ///< thickness for a current density [m per A/m2]
  const Solution* solution = nullptr;  ///< whose efficiency holds
};

/// What all steps leave on a part, along its surface as it is drawn. Its edges
/// end wherever one of any step does, so that the quadratics of all are
/// quadratics on it and adding them up costs no accuracy. Nodes are its own:
/// two at a place where something jumps.
struct Coat {
  Surface surface;  ///< open or judged where it is so in any step
  /// Real area that stands for each node of an edge, loop by loop, edge by
  /// edge [m2]. In sum over an edge it is what the meshes make of it, so that
  /// what is deposited is what the currents bring.
  std::vector<std::vector<Eigen::Vector3d>> weights;
  Eigen::MatrixXd density;    ///< nodes x steps, 0 where dry [A/m2]
  Eigen::VectorXd growth;     ///< of each step [m per A/m2]
  Eigen::MatrixXd deposit;    ///< nodes x steps, what each step leaves [m]
  Eigen::VectorXd thickness;  ///< at the nodes, all steps [m]
  double area = 0;            ///< wetted in any step, real [m2]

  /// Thickness after the first steps, at the nodes [m].
  Eigen::VectorXd after(Eigen::Index steps) const;
};

/// @param drawn  the part where it is drawn
/// @param depth  of a planar section [m]
Coat lay_down(const mesh::Outline& drawn, mesh::Cut cut, double depth,
              const std::vector<StepOnPart>& steps);

/// Real area that stands for each node of a coat [m2].
Eigen::VectorXd node_weights(const Coat& coat);

/// Thickness times the area that stands for it, as drawn [m3].
double volume_under(const Coat& coat, const Eigen::VectorXd& thickness);

/// Thickness along a coat, averaged over a window [m].
struct CoatSpread {
  Spread thickness;        ///< over open surface; mean: all [m]
  Extreme least, largest;  ///< none where nothing is open
  Extreme least_judged;    ///< none where nothing is judged
};
/// @param volume  deposited, from the currents [m3]
CoatSpread spread_of(const Coat& coat, const Eigen::VectorXd& thickness,
                     double volume, double window);

/// Where a window along the coat lies in one step; none (from == to) where the
/// loop is dry then.
Extreme window_in_step(const Extreme& window, const Coat& coat,
                       const mesh::Outline& drawn, const StepOnPart& step);

}  // namespace thinspot::solver
