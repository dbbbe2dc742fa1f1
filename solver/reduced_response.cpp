#include "solver/reduced_response.hpp"

#include "mesh/errors.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Working points between two looks at how good the basis is, and those that
/// must all be met then.
constexpr int kBatch = 4;
constexpr int kMostSamples = 120;
/// What of the samples is smaller than this is left out of the basis.
constexpr double kLeftOut = 1e-7;

SparseMatrix mass_of_all(const Electrodes& electrodes) {
  const auto rows = static_cast<Index>(electrodes.nodes.mesh_node.size());
  std::vector<Eigen::Triplet<double>> entries;
  const LocalLaws ones(std::vector<double>(electrodes.each.size(), 1.0));
  for_each_law_entry(electrodes, ones, [&](int j, int k, double v) {
    entries.emplace_back(j, k, v);
  });
  SparseMatrix mass(rows, rows);
  mass.setFromTriplets(entries.begin(), entries.end());
  return mass;
}

/// Gathers functions that are 0 at held rows, orthonormal over the electrodes.
class Basis {
 public:
  Basis(const Electrodes& electrodes, const LocalLaws& laws)
      : mass_(mass_of_all(electrodes)),
        share_(held_shares(electrodes, mass_.rows(), laws)),
        held_(find_fixed(electrodes, laws).held) {
    std::vector<Index> lifts;
    for (std::size_t e = 0; e < laws.resistance.size(); ++e)
      if (laws.resistance[e] == 0) lifts.push_back(static_cast<Index>(e));
    lifts_ = share_(Eigen::all, lifts);
    // Levels: with them currents add up as they do on the nodes.
    free_.resize(mass_.rows(), 0);
    MatrixXd levels = MatrixXd::Zero(
        mass_.rows(), static_cast<Index>(laws.resistance.size()) + 1);
    levels.col(0).setOnes();
    for (std::size_t e = 0; e < laws.resistance.size(); ++e)
      for (int row : electrodes.each[e].rows)
        levels(row, static_cast<Index>(e) + 1) = 1;
    add(levels);
  }

  /// Potentials for one volt on each electrode in turn, and for the rest of
  /// tangents where there are any: there nothing is held.
  void learn(MatrixXd unit_answers) {
    unit_answers.leftCols(share_.cols()) -= share_;
    add(std::move(unit_answers));
  }

  MatrixXd all() const {
    MatrixXd both(free_.rows(), lifts_.cols() + free_.cols());
    both << lifts_, free_;
    return both;
  }
  Index held() const { return lifts_.cols(); }

 private:
  void add(MatrixXd more) {
    for (Index r = 0; r < more.rows(); ++r)
      if (held_[static_cast<std::size_t>(r)]) more.row(r).setZero();
    largest_ = std::max(
        largest_,
        std::sqrt((more.transpose() * (mass_ * more)).diagonal().maxCoeff()));
    // Twice is enough: what rounding left of the first time goes the second.
    for (int k = 0; k < 2; ++k)
      more -= free_ * (free_.transpose() * (mass_ * more));
    const Eigen::SelfAdjointEigenSolver<MatrixXd> modes(more.transpose() *
                                                        (mass_ * more));
    std::vector<Index> kept;
    for (Index k = 0; k < more.cols(); ++k)
      if (modes.eigenvalues()(k) > kLeftOut * kLeftOut * largest_ * largest_)
        kept.push_back(k);
    MatrixXd fresh = more * modes.eigenvectors()(Eigen::all, kept);
    for (Index k = fresh.cols(); k-- > 0;) {
      VectorXd v = fresh.col(k);
      for (int twice = 0; twice < 2; ++twice)
        v -= free_ * (free_.transpose() * (mass_ * v));
      const double norm = std::sqrt(v.dot(mass_ * v));
      if (!(norm > 0.5 * kLeftOut * largest_)) continue;
      free_.conservativeResize(Eigen::NoChange, free_.cols() + 1);
      free_.rightCols(1) = v / norm;
    }
  }

  SparseMatrix mass_;
  MatrixXd share_, lifts_, free_;
  std::vector<bool> held_;
  double largest_ = 0;
};

/// Stiffness of the basis at every turn: all rows held at its functions.
void condense_on(ReducedResponse& r, const std::vector<Response>& turned) {
  r.stiffness.clear();
  r.reaction.clear();
  for (const Response& response : turned) {
    const LocalLaws held(std::vector<double>(response.count(), 0.0));
    const MatrixXd none = MatrixXd::Zero(r.basis.rows(), r.basis.cols());
    MatrixXd reaction = response.solve(1, held, none, r.basis).reaction;
    const MatrixXd s = r.basis.transpose() * reaction;
    r.stiffness.push_back(0.5 * (s + s.transpose()));
    if (r.held > 0) r.reaction.push_back(std::move(reaction));
  }
}

/// Makes the functions that are not held orthonormal in the energy of a set of
/// laws: then all that makes up the system is of size 1, and single precision
/// is enough to hand it on.
void orthonormalize(ReducedResponse& r, const Electrodes& electrodes,
                    double conductivity, const LocalLaws& laws) {
  const Index free = r.size() - r.held;
  MatrixXd law_on = MatrixXd::Zero(r.basis.rows(), r.size());
  for_each_law_entry(electrodes, laws, [&](int j, int k, double v) {
    law_on.row(j) += v * r.basis.row(k);
  });
  const MatrixXd energy =
      (conductivity * r.stiffness.front() + r.basis.transpose() * law_on)
          .bottomRightCorner(free, free);
  MatrixXd change = MatrixXd::Identity(r.size(), r.size());
  change.bottomRightCorner(free, free) =
      energy.llt().matrixU().solve(MatrixXd::Identity(free, free));
  r.basis = r.basis * change;
  for (MatrixXd& s : r.stiffness) s = change.transpose() * s * change;
  for (MatrixXd& q : r.reaction) q = q * change;
}

/// How far the parts' current densities are off, over their means.
double error_at(const ReducedResponse& r, const Response& response,
                const Sample& sample, const std::vector<std::size_t>& parts) {
  const WorkingPoint& w = sample.point;
  const LocalLaws laws = local_laws(w.laws);
  const Electrodes& electrodes = response.electrodes();
  WorkingPoint ours = w;
  const MatrixXd x =
      r.answer(electrodes, sample.turn, sample.conductivity, laws);
  ours.answers.potential = r.basis * x;
  if (r.held > 0) {
    ours.answers.reaction = r.reaction[sample.turn] * x;
    const MatrixXd share = held_shares(electrodes, r.basis.rows(), laws);
    ours.answers.leaving = leaving_through(electrodes, ours.answers.potential,
                                           ours.answers.reaction,
                                           sample.conductivity, laws, share);
  }
  double worst = 0;
  for (std::size_t e : parts) {
    const VectorXd exact = current_density(response, w, e);
    const double mean = std::abs(electrodes.each[e].weight.dot(exact)) /
                        electrodes.each[e].measure;
    const double scale = std::max(mean, 1e-3 * exact.cwiseAbs().maxCoeff());
    if (scale > 0)
      worst = std::max(
          worst,
          (current_density(response, ours, e) - exact).cwiseAbs().maxCoeff() /
              scale);
  }
  return worst;
}

}  // namespace

MatrixXd ReducedResponse::answer(const Electrodes& electrodes, std::size_t turn,
                                 double conductivity,
                                 const LocalLaws& laws) const {
  const Index rows = basis.rows(), free = size() - held;
  MatrixXd law_on = MatrixXd::Zero(rows, size());
  for_each_law_entry(electrodes, laws, [&](int j, int k, double v) {
    law_on.row(j) += v * basis.row(k);
  });
  const MatrixXd system =
      conductivity * stiffness[turn] + basis.transpose() * law_on;
  MatrixXd x = MatrixXd::Zero(size(), laws.drives());
  Index lift = 0;
  for (std::size_t e = 0; e < laws.resistance.size(); ++e)
    if (laws.resistance[e] == 0) x(lift++, static_cast<Index>(e)) = 1;
  const MatrixXd right =
      basis.rightCols(free).transpose() * unit_loads(electrodes, rows, laws) -
      system.bottomLeftCorner(free, held) * x.topRows(held);
  x.bottomRows(free) = system.bottomRightCorner(free, free).llt().solve(right);
  return x;
}

ReducedResponse reduced(const std::vector<Response>& turned,
                        double conductivity, const LocalLaws& laws,
                        const std::function<std::optional<Sample>(int)>& sample,
                        double wanted, const std::vector<std::size_t>& parts) {
  const Electrodes& electrodes = turned.front().electrodes();
  Basis basis(electrodes, laws);
  ReducedResponse r;
  r.held = basis.held();
  for (int k = 0; k < kMostSamples;) {
    std::vector<Sample> batch;
    for (int n = 0; n < kBatch && k < kMostSamples; ++n, ++k)
      if (std::optional<Sample> s = sample(k)) batch.push_back(std::move(*s));
    if (batch.empty()) continue;
    if (r.samples > 0) {
      r.basis = basis.all();
      condense_on(r, turned);
      r.error = 0;
      for (const Sample& s : batch)
        r.error = std::max(r.error, error_at(r, turned[s.turn], s, parts));
      if (r.error <= wanted) {
        orthonormalize(r, electrodes, conductivity, laws);
        return r;
      }
    }
    for (const Sample& s : batch) {
      basis.learn(s.point.answers.potential);
      ++r.samples;
    }
  }
  throw NoResultError(fmt::format(
      "{} working points do not reduce the response to {:.0e}, only to {:.1e}",
      r.samples, wanted, r.error));
}

}  // namespace thinspot::solver
