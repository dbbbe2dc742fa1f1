#pragma once

#include "mesh/mesh.hpp"
#include "mesh/section.hpp"
#include "solver/condense.hpp"
#include "solver/dense.hpp"
#include "solver/electrode_laws.hpp"
#include "solver/electrodes.hpp"

#include <Eigen/Core>

#include <memory>
#include <vector>

namespace thinspot::solver {

/// The Neumann problem of a section cut at its turning discs, condensed onto
/// the electrodes and, on either side of each circle, onto a few of its waves:
///   1, cos a, sin a, cos 2a, … cos m a, sin m a.
/// A part that turns by t takes its waves with it: the potential is one and the
/// same on both sides where a wave's pair on the one is the other's turned by
/// n t. So the sections inside and outside are paid for once, and an angle
/// costs a system of 2 m + 1 unknowns a disc. The potential on a circle away
/// from metal is so smooth that its waves fall off as (reach/free)^n.
class TurningResponse {
 public:
  /// How the discs stand against where the mesh was made.
  struct At {
    double angle = 0;  ///< counter-clockwise [rad]
    int waves = 0;     ///< m, at most those that there are
  };

  /// @param waves  m of each circle
  /// @throws NoResultError where the system cannot be factored.
  TurningResponse(const mesh::Mesh& mesh, const mesh::Section& section,
                  int waves);

  const Electrodes& electrodes() const { return electrodes_; }
  int waves() const { return waves_; }

  /// Of a mesh of one side of its only circle: the condensed operator, first
  /// the electrodes' rows, then the 2 m + 1 waves of the circle.
  Eigen::MatrixXd of_side(bool inside) const;

  /// As Response::solve.
  BoundaryAnswer solve(const At& at, double conductivity,
                       const LocalLaws& electrode_laws,
                       const Eigen::MatrixXd& loads,
                       const Eigen::MatrixXd& held) const;

  /// As Response::everywhere.
  Eigen::MatrixXd everywhere(const At& at,
                             const Eigen::MatrixXd& boundary) const;

  /// As Response::flux_through_discs: 2 m + 1 rows a disc.
  Eigen::MatrixXd flux(const At& at, const Eigen::MatrixXd& boundary) const;

 private:
  using Matrix = Eigen::MatrixXd;

  /// What the circles cut a section into: the inside of each disc, and what is
  /// left. Its electrodes see those elsewhere through the waves alone.
  struct Region {
    std::vector<int> rows;                ///< boundary rows
    std::vector<std::size_t> electrodes;  ///< of Electrodes::each
    Eigen::Index first = 0, waves = 0;    ///< of both sides' waves
  };

  /// A region's free rows under its electrodes' laws.
  struct Eliminated {
    std::vector<Eigen::Index> free;  ///< boundary rows
    DenseCholesky factor;
    Matrix beside;  ///< free rows x the region's waves
    Matrix lift;    ///< free rows for each wave held at 1
    Matrix pulled;  ///< waves x waves: what the lift takes from their system
    double residual = 0;
  };

  /// What does not depend on the angle, for one set of laws and, in it, for one
  /// set of right-hand sides.
  struct Laws {
    double conductivity = 0;
    LocalLaws of_electrodes;
    FixedRows rows;
    std::vector<std::shared_ptr<const Eliminated>> regions;
    Matrix waves;               ///< system of the waves, electrodes eliminated
    Matrix from_fixed;          ///< condensed: columns of held rows
    Matrix waves_on_fixed;      ///< condensed: held rows of waves
    Matrix loads, held;         ///< right-hand sides that the rest is for
    std::vector<Matrix> alone;  ///< each region's free rows, all waves at 0
    Matrix pull;                ///< what these ask of the waves
    double residual = 0;
  };
  void find_regions(const mesh::Mesh& mesh, const mesh::Section& section);
  /// Remembered with other laws elsewhere, or eliminated now.
  std::shared_ptr<const Eliminated> eliminated(std::size_t region,
                                               const Laws& laws) const;
  Laws& laws(double conductivity, const LocalLaws& electrode_laws) const;
  void load(Laws& laws, const Matrix& loads, const Matrix& held) const;

  /// Waves of both sides from those of the outside, and its transpose, which
  /// adds what either side asks for.
  Matrix both_sides(const At& at, const Matrix& outside) const;
  Matrix one_side(const At& at, const Matrix& both) const;
  Matrix system(const At& at, const Matrix& both) const;
  /// Waves of the outside for boundary values without sources elsewhere.
  Matrix waves_for(const At& at, const Matrix& boundary) const;

  Eigen::Index each() const { return 2 * waves_ + 1; }  ///< of a circle's side
  Eigen::Index all() const { return discs_ * each(); }  ///< of a side

  Electrodes electrodes_;
  int waves_ = 0;
  Eigen::Index discs_ = 0;
  std::vector<Region> regions_;
  std::vector<int> unknown_;    ///< of a mesh node; -1 on a circle
  std::vector<int> on_circle_;  ///< mesh nodes
  Matrix shape_;                ///< of all waves, inside first, at those nodes
  Matrix electrodes_on_;        ///< condensed: nb x nb
  Matrix between_;              ///< nb x waves of both sides
  Matrix waves_on_;             ///< waves x waves
  Interior interior_;
  /// Laws that were asked for last: every angle asks for the same ones.
  mutable std::vector<std::unique_ptr<Laws>> memory_;
};

}  // namespace thinspot::solver
