#pragma once

#include "solver/carried.hpp"
#include "solver/certify.hpp"
#include "solver/move_mesh.hpp"
#include "solver/progress.hpp"

#include <optional>
#include <vector>

namespace thinspot::solver {

/// One phase with surfaces that move: what its substeps come to.
struct Moved {
  bool whole = false;  ///< went through to the end
  /// Where not: how far it came and how far no more, as shares of the phase,
  /// and where it folded.
  double reached = 0, missed = 0;
  std::optional<mesh::Point> folded;

  struct OfPart {
    Eigen::VectorXd added;    ///< thickness at the electrode's rows [m]
    Eigen::VectorXd charged;  ///< volume over area as drawn, likewise [m]
    double current = 0;       ///< mean over time [A]
  };
  std::vector<OfPart> parts;
  Eigen::VectorXd current;  ///< of every electrode, mean over time [A]
  double total_current = 0, wire_current = 0, terminal_voltage = 0;
  std::string limited_by;  ///< at its end
  double area = 0;         ///< of all parts at its end, real [m2]
  mesh::Mesh mesh;         ///< at its end
};

/// A phase of a schedule, as drawn and solved.
class MovingPhase {
 public:
  /// @param growth  of the phase, thickness for a current density [m per A/m2]
  /// @param thickest  about how thick the deposit of all phases becomes [m]
  MovingPhase(const Certified& drawn, const Case& used, double growth,
              double thickest);

  /// Where the parts' surfaces are when it begins.
  /// @param carried  of each part
  /// @returns  where the mesh would fold; none where it does not
  std::optional<mesh::Point> begin(const std::vector<Carried>& carried);

  /// @param progress  whose stage counts substeps where its own has no count
  Moved run(int substeps, const Progress& progress = {}) const;

  /// @param carried  of each part; set to where the surfaces are in the end
  void take(const mesh::Mesh& mesh, std::vector<Carried>& carried) const;

 private:
  struct State;
  State solved_on(const mesh::Mesh& mesh, const WorkingPoint& near) const;
  Eigen::Matrix2Xd front_of(const State& state, double growth) const;

  const Certified& drawn_;
  Case used_;
  double growth_, thickest_;
  mesh::Mesh start_;
  Following follow_;  ///< on the mesh as drawn
};

}  // namespace thinspot::solver
