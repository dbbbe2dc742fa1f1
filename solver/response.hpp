#pragma once

#include "mesh/mesh.hpp"
#include "solver/condense.hpp"
#include "solver/electrode_laws.hpp"
#include "solver/electrodes.hpp"
#include "solver/for_laws.hpp"
#include "solver/laplace.hpp"
#include "solver/turning_response.hpp"
#include "solver/uncondensed_response.hpp"

#include <Eigen/Core>

#include <array>
#include <memory>
#include <vector>

namespace thinspot::solver {

/// Nodes on electrodes up to which the condensed operator is kept as a dense
/// matrix.
inline constexpr Eigen::Index kMostDenseRows = 1500;

/// What linear electrodes do in one section: the answer to one volt on each
/// electrode in turn, all others at zero; where laws are tangents, last what
/// their rest does with all at zero. m drives, nb boundary rows.
struct UnitAnswers {
  Eigen::MatrixXd potential;  ///< of the liquid at the nodes, nb x m [V/V]
  Eigen::MatrixXd reaction;   ///< as in BoundaryAnswer
  /// Current that leaves the liquid through electrode j for 1 V on electrode
  /// k, by reactions, per metre of depth or whole, electrodes x m [S/m or S].
  /// Symmetric but for rounding, columns add up to zero: by Kirchhoff.
  Eigen::MatrixXd current;
  /// Of each electrode that holds its potential: what leaves the liquid through
  /// its nodes, in the order of its rows, one column a unit answer [A/V].
  std::vector<Eigen::MatrixXd> leaving;
  double relative_residual = 0;
};

/// The Neumann problem of a section, kept so that any conductivity and any
/// polarization can be answered without going back to the mesh. Dense up to
/// 1,500 electrode nodes, above that by a sparse factor for each set of laws;
/// on large meshes by iteration.
class Response {
 public:
  /// @throws NoResultError where the section's system cannot be factored or
  ///         would take over 2 GiB.
  Response(const mesh::Mesh& mesh, const mesh::Section& section)
      : Response(mesh, section, {}) {}

  /// The same of a mesh that differs from this response's in the places of its
  /// nodes alone: what depends on its triangles is not looked for again.
  Response moved(const mesh::Mesh& mesh, const mesh::Section& section) const;

  /// A section whose parts stand turned in their discs.
  /// @param angle  from where the mesh was made, counter-clockwise [rad]
  /// @param waves  of each circle, at most those that there are
  Response(std::shared_ptr<const TurningResponse> turning, double angle,
           int waves);

  /// What is condensed already, from anywhere; everywhere() is not to be asked
  /// of it.
  /// @param condensed  nb x nb, in boundary rows
  Response(Electrodes electrodes, Eigen::MatrixXd condensed);

  const Electrodes& electrodes() const {
    return turning_ ? turning_->electrodes() : electrodes_;
  }
  std::size_t count() const { return electrodes().each.size(); }

  /// The condensed operator, nb x nb; empty where the section is too large or
  /// cut at discs.
  const Eigen::MatrixXd& condensed() const { return condensed_; }

  /// Where two electrodes that hold their potential touch, each has its share
  /// of the node between them: half, where their edges there are equally long.
  /// At different potentials the current from one to the other has no bound.
  /// @param conductivity [S/m]
  /// @throws NoResultError where the residual or Kirchhoff's law fails.
  UnitAnswers answer(double conductivity, const LocalLaws& laws) const;

  /// Solves (conductivity S + mass / resistance) potential = loads, where
  /// rows of electrodes without resistance have the held values.
  /// @param loads, held  nb x k; of `held` only those rows are read, which must
  ///                     be zero elsewhere
  BoundaryAnswer solve(double conductivity, const LocalLaws& laws,
                       const Eigen::MatrixXd& loads,
                       const Eigen::MatrixXd& held) const;

  /// Pairs of electrodes without resistance that have a node in common.
  std::vector<std::array<std::size_t, 2>> touching(const LocalLaws& laws) const;

  /// Current density that leaves the liquid at the nodes of one electrode, in
  /// the order of its rows: from the law, or for R = 0 the consistent flux q
  /// with mass q = reactions, linear on each edge [A/m2].
  /// @param drive potential of every electrode behind its law [V]
  Eigen::VectorXd current_density(std::size_t electrode,
                                  const UnitAnswers& answers,
                                  const Eigen::VectorXd& drive,
                                  double resistance,
                                  const Tangent* tangent = nullptr) const;

  /// Potential at all mesh nodes from that at the electrode nodes [V], one
  /// column a field.
  Eigen::MatrixXd everywhere(const Eigen::MatrixXd& boundary) const;

  /// Current at conductivity 1 that goes into the turning discs for such
  /// boundary values, by the waves of their circles as they stand in the tank;
  /// without discs no rows.
  Eigen::MatrixXd flux_through_discs(const Eigen::MatrixXd& boundary) const;

 private:
  /// @param order  of elimination; empty: one is looked for
  Response(const mesh::Mesh& mesh, const mesh::Section& section,
           const std::vector<int>& order);

  UnitAnswers answer_anew(double conductivity, const LocalLaws& laws) const;
  BoundaryAnswer solve_dense(double conductivity, const LocalLaws& laws,
                             const Eigen::MatrixXd& loads,
                             const Eigen::MatrixXd& held) const;

  /// The operator by rows that are held and those that are not.
  struct Blocks {
    FixedRows rows;
    std::vector<Eigen::Index> place;  ///< of each row among the free; -1
    Eigen::MatrixXd among_free, to_fixed, among_fixed;
  };
  const Blocks& blocks(const LocalLaws& laws) const;

  Electrodes electrodes_;
  std::shared_ptr<const UncondensedResponse> uncondensed_;
  Eigen::MatrixXd condensed_;
  Interior interior_;
  /// As they were asked for last: which rows are held hardly ever changes.
  mutable std::shared_ptr<const Blocks> blocks_;
  std::shared_ptr<const TurningResponse> turning_;
  TurningResponse::At at_;
  mutable ForLaws<UnitAnswers> kept_;
};

}  // namespace thinspot::solver
