#include "solver/moving_phase.hpp"

#include "mesh/errors.hpp"
#include "solver/front.hpp"

#include <algorithm>
#include <utility>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::Matrix2Xd;
using Eigen::VectorXd;

/// The end of a substep is found by repetition, at most so often and until it
/// changes less than this share of the tolerance.
constexpr int kMostRepetitions = 4;
constexpr double kOfTolerance = 0.02;

/// Surfaces adjust beside their edges over this many thicknesses.
constexpr double kReach = 4;

Matrix2Xd no_move(const mesh::Mesh& mesh) {
  return Matrix2Xd::Zero(2, mesh.nodes.cols());
}

/// Area for area: a node on the axis has none.
VectorXd ratio(const VectorXd& now, const VectorXd& drawn) {
  const double none = 1e-9 * drawn.cwiseAbs().maxCoeff();
  VectorXd r = VectorXd::Ones(now.size());
  for (Index k = 0; k < now.size(); ++k)
    if (drawn(k) > none) r(k) = now(k) / drawn(k);
  return r;
}

}  // namespace

/// The cell at one moment.
struct MovingPhase::State {
  mesh::Mesh mesh;
  WorkingPoint point;
  std::vector<VectorXd> density;  ///< of each part, at its rows [A/m2]
  std::vector<double> current;    ///< of each part [A]
  double area = 0;                ///< of all parts [m2]
};

MovingPhase::MovingPhase(const Certified& drawn, const Case& used,
                         double growth, double thickest)
    : drawn_(drawn),
      used_(used),
      growth_(growth),
      thickest_(thickest),
      start_(drawn.model.mesh),
      follow_(start_, ties_of(start_)) {
  used_.probes.clear();
}

std::optional<mesh::Point> MovingPhase::begin(
    const std::vector<Carried>& carried) {
  const Model& m = drawn_.model;
  Matrix2Xd moves = no_move(start_);
  for (std::size_t p = 0; p < m.surfaces.size(); ++p) {
    const Electrodes& electrodes = m.response.electrodes();
    carried[p].give(solid_of(m, m.surfaces[p]), electrodes, m.surfaces[p],
                    moves);
    fade_at_held(start_, electrodes, m.surfaces[p], kReach * thickest_, moves);
  }
  std::optional<mesh::Point> folded;
  move_nodes(start_, follow_, moves, folded);
  return folded;
}

MovingPhase::State MovingPhase::solved_on(const mesh::Mesh& mesh,
                                          const WorkingPoint& near) const {
  const Model& as_drawn = drawn_.model;
  Model model = build_model(used_, as_drawn.section, mesh,
                            as_drawn.response.moved(mesh, as_drawn.section));
  State s;
  s.area = model.scale.part_area;
  // Who sets a current density sets a current, by the area as it is drawn.
  model.scale.part_area = as_drawn.scale.part_area;
  Outcome outcome = evaluate(model, used_, {&near, true});
  for (PartOutcome& part : outcome.parts) {
    s.density.push_back(std::move(part.current_density));
    s.current.push_back(part.current);
  }
  s.point = std::move(outcome.point);
  s.mesh = std::move(model.mesh);
  return s;
}

Matrix2Xd MovingPhase::front_of(const State& state, double growth) const {
  const Model& m = drawn_.model;
  Matrix2Xd move = no_move(state.mesh);
  for (std::size_t p = 0; p < m.surfaces.size(); ++p) {
    const Surface& surface = m.surfaces[p];
    const double length = used_.solution.conductivity.value *
                          state.point.laws[surface.electrode].resistance;
    add_front(state.mesh, m.response.electrodes(), surface,
              growth * averaged(surface, state.density[p], thickest_ - length),
              kReach * thickest_, move);
  }
  return move;
}

Moved MovingPhase::run(int substeps, const Progress& progress) const {
  const Model& m = drawn_.model;
  const Electrodes& electrodes = m.response.electrodes();
  Moved moved;
  for (const Surface& surface : m.surfaces) {
    const VectorXd none =
        VectorXd::Zero(electrodes.each[surface.electrode].weight.size());
    moved.parts.push_back({none, none, 0});
  }
  moved.current = VectorXd::Zero(static_cast<Index>(electrodes.each.size()));
  const double share = 1. / substeps, growth = growth_ * share;

  const auto add = [&](const State& s, double weight) {
    for (std::size_t p = 0; p < m.surfaces.size(); ++p) {
      const VectorXd added = weight * growth_ * s.density[p];
      const VectorXd drawn = weights_of(m.mesh, electrodes, m.surfaces[p]);
      moved.parts[p].added += added;
      moved.parts[p].charged += added.cwiseProduct(
          ratio(weights_of(s.mesh, electrodes, m.surfaces[p]), drawn));
      moved.parts[p].current += weight * s.current[p];
    }
    moved.current += weight * s.point.current;
    moved.total_current += weight * s.point.total_current;
    moved.wire_current += weight * s.point.wire_current;
    moved.terminal_voltage += weight * s.point.terminal_voltage;
  };

  State now = solved_on(start_, drawn_.outcome.point);
  for (int k = 0; k < substeps; ++k) {
    moved.missed = (k + 1) * share;
    progress
        .counted("", static_cast<std::size_t>(k) + 1,
                 static_cast<std::size_t>(substeps))
        .at(k * share);
    const Matrix2Xd first = front_of(now, growth);
    Matrix2Xd move = first;
    State end;
    for (int again = 0; again < kMostRepetitions; ++again) {
      mesh::Mesh there = now.mesh;
      if (!move_nodes(there, follow_, move, moved.folded)) return moved;
      State next;
      try {
        next = solved_on(there, now.point);
      } catch (const NoResultError&) {
        return moved;  // as good as folded
      }
      double change = 0, mean = 0;
      for (std::size_t p = 0; p < next.density.size(); ++p) {
        const VectorXd& before = again ? end.density[p] : now.density[p];
        change =
            std::max(change, (next.density[p] - before).cwiseAbs().maxCoeff());
        mean = std::max(mean, next.density[p].cwiseAbs().mean());
      }
      end = std::move(next);
      if (again > 0 && change < kOfTolerance * used_.accuracy.tolerance * mean)
        break;
      move = 0.5 * (first + front_of(end, growth));
    }
    add(now, 0.5 * share);
    add(end, 0.5 * share);
    now = std::move(end);
    moved.reached = (k + 1) * share;
  }
  const auto all = static_cast<std::size_t>(substeps);
  progress.counted("", all, all).at(1);
  moved.whole = true;
  moved.limited_by = now.point.limited_by;
  moved.area = now.area;
  moved.mesh = std::move(now.mesh);
  return moved;
}

void MovingPhase::take(const mesh::Mesh& mesh,
                       std::vector<Carried>& carried) const {
  const Model& m = drawn_.model;
  const Matrix2Xd moves = mesh.nodes - m.mesh.nodes;
  for (std::size_t p = 0; p < m.surfaces.size(); ++p)
    carried[p].take(solid_of(m, m.surfaces[p]), m.response.electrodes(),
                    m.surfaces[p], moves);
}

}  // namespace thinspot::solver
