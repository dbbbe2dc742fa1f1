#include "solver/rescaling.hpp"

#include <Eigen/LU>

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Change of the unit currents with the logarithm of one electrode's
/// resistance: the law's dissipation over that electrode, by the same
/// potentials on both sides.
MatrixXd current_change(const WorkingPoint& w, const Electrode& electrode,
                        std::size_t e) {
  MatrixXd over(static_cast<Index>(electrode.rows.size()),
                w.answers.potential.cols());
  for (std::size_t k = 0; k < electrode.rows.size(); ++k)
    over.row(static_cast<Index>(k)) =
        w.answers.potential.row(electrode.rows[k]);
  over.col(static_cast<Index>(e)).array() -= 1;
  const MatrixXd all =
      over.transpose() * (electrode.mass * over) / w.laws[e].resistance;
  return all.topRows(w.answers.current.rows());
}

/// A step beyond this leaves what a derivative knows.
constexpr double kLongestStep = 2;
constexpr double kDifference = 1e-5;

}  // namespace

/// Mean current density of an electrode as drawn, positive in its normal
/// direction [A/m2].
double mean_density(const WorkingPoint& w, const Response& response,
                    std::size_t e, double depth) {
  const double leaving = w.current(static_cast<Index>(e)) /
                         (response.electrodes().each[e].measure * depth);
  return w.laws[e].anode ? -leaving : leaving;
}

bool rescales(const Polarization& p) { return p.at && p.resistance.value > 0; }

Rescaling rescaling(const WorkingPoint& w, const Response& response,
                    const Case& c, double depth) {
  Rescaling r;
  std::vector<double> before, after;
  for (std::size_t e = 0; e < w.laws.size(); ++e) {
    const std::size_t solid = response.electrodes().each[e].solid;
    const Polarization& p = polarization_of(c, solid);
    if (w.laws[e].floating || !rescales(p)) continue;
    // A Tafel slope has no bound at rest; a thousandth of the stated current
    // density is rest for every purpose here.
    const double mean =
        std::max(mean_density(w, response, e, depth), kRest * *p.at);
    const Anode* anode = anode_of(c, solid);
    const double resistance = p.resistance.value * *p.at / mean +
                              (anode ? anode->bag_resistance.value : 0);
    r.electrodes.push_back(e);
    before.push_back(std::log(w.laws[e].resistance));
    after.push_back(std::log(resistance));
  }
  const auto n = static_cast<Index>(before.size());
  r.before = Eigen::Map<const VectorXd>(before.data(), n);
  r.after = Eigen::Map<const VectorXd>(after.data(), n);
  return r;
}

VectorXd newton_step(const WorkingPoint& w, const Rescaling& r,
                     const Response& response, const Case& c,
                     const SectionScale& scale) {
  const Index n = r.before.size();
  MatrixXd system = -MatrixXd::Identity(n, n);
  WorkingPoint moved = w;
  for (Index k = 0; k < n; ++k) {
    const std::size_t e = r.electrodes[static_cast<std::size_t>(k)];
    moved.answers.current =
        w.answers.current +
        kDifference * current_change(w, response.electrodes().each[e], e);
    operate(moved, c, scale);
    system.col(k) +=
        (rescaling(moved, response, c, scale.depth).after - r.after) /
        kDifference;
  }
  const VectorXd step = system.partialPivLu().solve(r.before - r.after);
  const bool sane =
      step.allFinite() && step.cwiseAbs().maxCoeff() < kLongestStep;
  return sane ? VectorXd(r.before + step) : r.after;
}

}  // namespace thinspot::solver
