#pragma once

#include "solver/electrodes.hpp"
#include "solver/tangent.hpp"

#include <Eigen/Core>

#include <initializer_list>
#include <memory>
#include <utility>
#include <vector>

namespace thinspot::solver {

/// Boundary values of any right-hand side, one column each.
struct BoundaryAnswer {
  Eigen::MatrixXd potential;  ///< nb x k
  /// What the stiffness at conductivity 1 makes of them; 0 in rows whose
  /// potential is not held.
  Eigen::MatrixXd reaction;
  double relative_residual = 0;
};

/// Potential at all nodes, one column a field, and what its solve left.
struct Inside {
  Eigen::MatrixXd potential;
  double relative_residual = 0;
};

/// The laws of all electrodes where they work. The density that leaves the
/// liquid is (potential - drive) / resistance, or, by a tangent, slope *
/// (potential - drive) + rest.
struct LocalLaws {
  LocalLaws() = default;
  LocalLaws(std::vector<double> of_each) : resistance(std::move(of_each)) {}
  LocalLaws(std::initializer_list<double> of_each) : resistance(of_each) {}

  /// Of each electrode [ohm m2]; 0 holds the potential fixed.
  std::vector<double> resistance;
  /// Of each electrode, nullptr where the law is linear; empty: all are.
  std::vector<std::shared_ptr<const Tangent>> tangents;

  const Tangent* tangent(std::size_t e) const {
    return tangents.empty() ? nullptr : tangents[e].get();
  }
  /// Of what drives the currents: one an electrode, and one more for the rest
  /// of the tangents, which is always 1.
  Eigen::Index drives() const {
    return static_cast<Eigen::Index>(resistance.size()) +
           (tangents.empty() ? 0 : 1);
  }
  bool operator==(const LocalLaws&) const = default;
};

/// Boundary rows whose potential is held, and the others.
struct FixedRows {
  std::vector<bool> held;
  std::vector<Eigen::Index> free, fixed;
};
FixedRows find_fixed(const Electrodes& electrodes, const LocalLaws& laws);

/// Calls add(row, column, value) for every entry of sum of mass / resistance.
template <class Add>
void for_each_law_entry(const Electrodes& electrodes, const LocalLaws& laws,
                        Add add) {
  for (std::size_t e = 0; e < electrodes.each.size(); ++e) {
    if (laws.resistance[e] == 0) continue;
    const Electrode& electrode = electrodes.each[e];
    const Tangent* tangent = laws.tangent(e);
    const SparseMatrix& mass = tangent ? tangent->mass : electrode.mass;
    const double over = tangent ? 1 : laws.resistance[e];
    for (Eigen::Index k = 0; k < mass.outerSize(); ++k)
      for (SparseMatrix::InnerIterator it(mass, k); it; ++it)
        add(electrode.rows[static_cast<std::size_t>(it.row())],
            electrode.rows[static_cast<std::size_t>(it.col())],
            it.value() / over);
  }
}

/// How much of each row is each electrode's, of those that hold their
/// potential: by the weights of its node on them.
Eigen::MatrixXd held_shares(const Electrodes& electrodes, Eigen::Index rows,
                            const LocalLaws& laws);

/// Loads of one volt behind each law: mass times ones over resistance; last
/// those of the tangents' rest.
Eigen::MatrixXd unit_loads(const Electrodes& electrodes, Eigen::Index rows,
                           const LocalLaws& laws);

/// What leaves through the nodes of electrodes that hold their potential, for
/// one volt on each: the reactions, less what laws of neighbours take from
/// shared nodes.
/// @param potential, reaction  as of UnitAnswers
/// @param share  held_shares()
std::vector<Eigen::MatrixXd> leaving_through(const Electrodes& electrodes,
                                             const Eigen::MatrixXd& potential,
                                             const Eigen::MatrixXd& reaction,
                                             double conductivity,
                                             const LocalLaws& laws,
                                             const Eigen::MatrixXd& share);

/// a x; column by column where there are few, which are not worth packing
/// into blocks.
Eigen::MatrixXd product(const Eigen::Ref<const Eigen::MatrixXd>& a,
                        const Eigen::MatrixXd& x);
/// a^T x likewise.
Eigen::MatrixXd transposed_product(const Eigen::Ref<const Eigen::MatrixXd>& a,
                                   const Eigen::MatrixXd& x);

/// Constants carry no current, so they are taken off before the operator is
/// applied: beside a large resistance the potential is constant but for a
/// millionth, and the rounding of the constant would drown the current.
Eigen::MatrixXd without_mean(const Eigen::MatrixXd& potential);

}  // namespace thinspot::solver
