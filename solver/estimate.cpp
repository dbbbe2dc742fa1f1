#include "solver/estimate.hpp"

#include "solver/bubbles.hpp"
#include "solver/element.hpp"
#include "solver/goals.hpp"
#include "solver/laplace.hpp"
#include "solver/local_errors.hpp"
#include "solver/rescaling.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// The bar is this much of the estimate itself and of the sum of the triangles'
/// absolute shares: the first is right where the local problems are, the second
/// where errors of either sign cancel by luck. Set on 300 set-ups drawn by lot;
/// tests/population judges it on others.
constexpr double kOfEstimate = 1.5, kOfShares = 0.3;

/// Rounding of figures: the solver's residual is allowed to be of this size.
constexpr double kRounding = 1e-9;

/// What the wetted length or area on the mesh, of which means are taken, lacks
/// of that along the true curves, edge by edge.
void add_measure(const Model& model, const Goals& goals, MatrixXd& share) {
  const auto& each = model.response.electrodes().each;
  for (std::size_t e = 0; e < each.size(); ++e) {
    const Index goal = goals.current_of(e);
    const double mean = std::abs(goals.value(goal)) / each[e].measure;
    for (const mesh::BoundaryEdge& b : model.mesh.boundary)
      if (b.owner == static_cast<int>(each[e].solid) && !b.masked)
        share(b.triangle, goal) +=
            mean *
            std::abs(edge_mass(model.mesh, b).sum() - true_measure(model, b));
  }
}

}  // namespace

Estimate estimate_errors(const Model& model, const Case& c,
                         const Outcome& outcome) {
  const WorkingPoint& w = outcome.point;
  const Goals goals = find_goals(model, c, outcome);
  const LocalErrors local =
      local_errors(model.mesh, model.section, model.response.electrodes(),
                   goals.fields, goals.solution, goals.duals);
  MatrixXd share = kOfShares * local.product.cwiseAbs() + local.geometry;
  for (const Goals::Beside& b : goals.beside)
    for (int t : b.triangles)
      share(t, b.goal) += b.size / static_cast<double>(b.triangles.size());
  add_measure(model, goals, share);
  VectorXd bar =
      share.colwise().sum().transpose() +
      kOfEstimate * local.product.colwise().sum().cwiseAbs().transpose() +
      kRounding * goals.value.cwiseAbs();
  // Where refining pays: each triangle's share as if none cancelled.
  share += kOfEstimate * local.product.cwiseAbs();

  // Slopes that follow an electrode's mean current are off as that is.
  const auto& each = model.response.electrodes().each;
  const VectorXd direct = bar;
  for (std::size_t e = 0; e < each.size(); ++e) {
    if (w.laws[e].floating || !rescales(polarization_of(c, each[e].solid)))
      continue;
    const auto k = static_cast<Index>(e);
    const double mean = std::abs(goals.value(goals.current_of(e)));
    const double relative = (mean > 0 ? direct(goals.current_of(e)) / mean : 1);
    bar += std::min(relative, 1.0) * goals.by_slope.col(k).cwiseAbs();
  }

  Estimate estimate;
  MeshErrors& errors = estimate.errors;
  errors.voltage = bar(Goals::voltage);
  errors.current = bar(Goals::current);
  errors.resistance = bar(Goals::resistance);
  for (std::size_t e = 0; e < each.size(); ++e)
    errors.electrode_current.push_back(bar(goals.current_of(e)));
  std::vector<Index> wanted{Goals::resistance};
  std::vector<double> allowed{c.accuracy.tolerance *
                              std::abs(goals.value(Goals::resistance))};
  for (std::size_t r = 0; r < w.rectifiers.size(); ++r) {
    const Goals::OfRectifier& at = goals.rectifiers[r];
    errors.rectifiers.push_back({bar(at.voltage), bar(at.current)});
    if (w.rectifiers[r].idle) continue;
    wanted.insert(wanted.end(), {at.voltage, at.current});
    allowed.push_back(c.accuracy.tolerance * std::abs(goals.value(at.voltage)));
    allowed.push_back(c.accuracy.tolerance *
                      std::abs(goals.value(Goals::current)));
  }
  double first_mean = 0;
  for (std::size_t p = 0; p < outcome.parts.size(); ++p) {
    const std::size_t e = model.surfaces[p].electrode;
    const double area = each[e].measure * model.scale.depth;
    const Spread& i = outcome.parts[p].current_density_spread;
    if (p == 0) first_mean = std::abs(i.mean);
    MeshErrors::OfPart of;
    of.mean = bar(goals.current_of(e)) / area;
    const auto of_window = [&](Index goal) {
      return goal >= 0 ? bar(goal) : of.mean;
    };
    const Goals::OfPart& at = goals.parts[p];
    of.least = of_window(at.least);
    of.largest = of_window(at.largest);
    of.least_judged = of_window(at.least_judged);
    errors.parts.push_back(of);
    const double tolerance = c.accuracy.tolerance * std::abs(i.mean);
    wanted.push_back(goals.current_of(e));
    allowed.push_back(tolerance * area);
    for (Index goal : {at.least, at.largest, at.least_judged})
      if (goal >= 0) {
        wanted.push_back(goal);
        allowed.push_back(tolerance);
      }
  }
  for (Index goal : goals.probes) {
    errors.probes.push_back(goal >= 0 ? bar(goal) : 0);
    if (goal < 0) continue;
    wanted.push_back(goal);
    allowed.push_back(c.accuracy.tolerance * first_mean);
  }
  for (std::size_t k = 0; k < goals.watched.size(); ++k) {
    const Index goal = goals.watched[k];
    errors.watched.push_back(goal >= 0 ? bar(goal) : 0);
    if (goal < 0) continue;
    const std::size_t part = outcome.watched[k].part;
    wanted.push_back(goal);
    allowed.push_back(
        c.accuracy.tolerance *
        std::abs(outcome.parts[part].current_density_spread.mean));
  }
  estimate.bar = bar(wanted);
  estimate.allowed = Eigen::Map<const VectorXd>(
      allowed.data(), static_cast<Index>(allowed.size()));
  estimate.share = share(Eigen::all, wanted);
  return estimate;
}

}  // namespace thinspot::solver
