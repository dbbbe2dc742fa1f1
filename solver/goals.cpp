#include "solver/goals.hpp"

#include "solver/bubbles.hpp"
#include "solver/disc_loads.hpp"
#include "solver/element.hpp"
#include "solver/linear_solve.hpp"
#include "solver/window.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <unordered_map>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

struct Window {
  std::size_t electrode = 0;
  const Surface* surface = nullptr;
  Extreme at;
};

bool same(const Window& a, const Window& b) {
  return a.electrode == b.electrode && a.at.of_loop == b.at.of_loop &&
         a.at.from == b.at.from && a.at.to == b.at.to;
}

class Finder {
 public:
  Finder(const Model& model, const Case& c, const Outcome& outcome)
      : model_(model),
        case_(c),
        outcome_(outcome),
        w_(outcome.point),
        each_(model.response.electrodes().each),
        m_(static_cast<Index>(each_.size())),
        units_(w_.answers.potential.cols()) {
    goals_.fields.laws = local_laws(w_.laws);
    goals_.fields.conductivity = c.solution.conductivity.value;
  }

  Goals find() {
    list_windows();
    read_windows();
    solve_fields();
    add_shared_nodes();
    const VectorXd base = figures(w_);
    goals_.value = base;
    for (std::size_t r = 0; r < w_.rectifiers.size(); ++r) {
      const auto first =
          base.size() - 2 * static_cast<Index>(w_.rectifiers.size() - r);
      goals_.rectifiers.push_back({first, first + 1});
    }
    find_duals(base);
    find_slopes();
    return std::move(goals_);
  }

 private:
  Index goal_of(const Window& window) {
    if (!(window.at.to > window.at.from)) return -1;
    for (std::size_t k = 0; k < windows_.size(); ++k)
      if (same(windows_[k], window)) return 3 + m_ + static_cast<Index>(k);
    windows_.push_back(window);
    return 3 + m_ + static_cast<Index>(windows_.size()) - 1;
  }

  void list_windows() {
    for (std::size_t p = 0; p < outcome_.parts.size(); ++p) {
      const Surface& surface = model_.surfaces[p];
      const PartOutcome& o = outcome_.parts[p];
      Goals::OfPart of;
      of.least = goal_of({surface.electrode, &surface, o.least});
      of.largest = goal_of({surface.electrode, &surface, o.largest});
      of.least_judged = goal_of({surface.electrode, &surface, o.least_judged});
      goals_.parts.push_back(of);
    }
    for (const ProbeOutcome& p : outcome_.probes) {
      const Surface& surface = model_.surfaces.front();
      goals_.probes.push_back(goal_of({surface.electrode, &surface, p.window}));
    }
    for (const Watched& w : outcome_.watched) {
      const Surface& surface = model_.surfaces[w.part];
      goals_.watched.push_back(
          goal_of({surface.electrode, &surface, w.window}));
    }
  }

  double resistance(std::size_t e) const { return w_.laws[e].resistance; }

  /// Rows of one electrode out of all boundary rows.
  MatrixXd rows_of(const Electrode& e, const MatrixXd& boundary) const {
    return boundary(e.rows, Eigen::all);
  }

  /// Traces, loads and unit values of each window.
  void read_windows() {
    const auto count = static_cast<Index>(windows_.size());
    const Index rows = w_.answers.potential.rows();
    loads_ = MatrixXd::Zero(rows, count);
    held_ = MatrixXd::Zero(rows, count);
    unit_ = MatrixXd::Zero(count, units_);
    for (Index k = 0; k < count; ++k) {
      const Window& window = windows_[static_cast<std::size_t>(k)];
      const Electrode& e = each_[window.electrode];
      const WindowAverage average = window_average(
          *window.surface, window.at, static_cast<Index>(e.rows.size()));
      if (resistance(window.electrode) > 0)
        read_law(k, window, e, average);
      else
        read_held(k, e, average);
    }
  }

  void read_law(Index k, const Window& window, const Electrode& e,
                const WindowAverage& average) {
    const Tangent* tangent = w_.laws[window.electrode].tangent.get();
    const VectorXd slope =
        tangent ? tangent->node_slope
                : VectorXd::Constant(average.weights.size(),
                                     1 / resistance(window.electrode));
    const VectorXd weights = average.weights.cwiseProduct(slope);
    for (std::size_t n = 0; n < e.rows.size(); ++n)
      loads_(e.rows[n], k) += weights(static_cast<Index>(n));
    unit_.row(k) = weights.transpose() * rows_of(e, w_.answers.potential);
    unit_(k, static_cast<Index>(window.electrode)) -= weights.sum();
    if (tangent)
      unit_(k, units_ - 1) += average.weights.dot(tangent->node_rest);
    std::unordered_map<std::size_t, Eigen::Vector3d> ends;
    for (const ElectrodeEdge& edge : e.edges)
      ends[edge.boundary] = {slope(edge.place[0]), slope(edge.place[1]),
                             slope(edge.place[2])};
    for (const EdgeStretch& s : average.edges) {
      EdgeLoad load{s.boundary, units_ + k, Eigen::Vector2d::Zero()};
      for (const EdgePoint& q : gauss_rule()) {
        const double t = s.from + q.t * (s.to - s.from);
        load.load += s.share * (s.to - s.from) * q.weight *
                     edge_functions(t).dot(ends.at(s.boundary)) *
                     edge_bubbles(t);
      }
      goals_.fields.loads.push_back(load);
    }
  }

  /// Current density of held metal is tested with the edges' hats: the average
  /// is the flux tested with a trace that is made of them.
  void read_held(Index k, const Electrode& e, const WindowAverage& average) {
    const VectorXd trace = flux_trace(e, average.weights);
    for (std::size_t n = 0; n < e.rows.size(); ++n)
      held_(e.rows[n], k) = trace(static_cast<Index>(n));
    const MatrixXd& leaving =
        w_.answers.leaving[windows_[static_cast<std::size_t>(k)].electrode];
    unit_.row(k) = trace.transpose() * leaving;
    // How far averages over an edge's quadratics are from those over its hats.
    const VectorXd quadratic = solve_definite(e.mass, leaving * w_.drive);
    Goals::Beside beside;
    beside.goal = 3 + m_ + k;
    beside.size =
        std::abs(average.weights.dot(quadratic) - unit_.row(k) * w_.drive);
    for (const EdgeStretch& edge : average.edges)
      beside.triangles.push_back(model_.mesh.boundary[edge.boundary].triangle);
    goals_.beside.push_back(std::move(beside));
  }

  /// Where electrodes that hold their potential touch, their shares of the
  /// node between them are right as far as the current is even there.
  void add_shared_nodes() {
    for (const auto& pair : model_.response.touching(goals_.fields.laws))
      for (std::size_t e : pair) {
        const Electrode& electrode = each_[e];
        const auto places = places_by_row(electrode);
        Goals::Beside beside;
        beside.goal = goals_.current_of(e);
        const VectorXd leaving = w_.answers.leaving[e] * w_.drive;
        for (int row : each_[pair[0] == e ? pair[1] : pair[0]].rows) {
          const auto shared = places.find(row);
          if (shared == places.end()) continue;
          beside.size +=
              0.5 * std::abs(leaving(shared->second)) * model_.scale.depth;
          add_triangles_at(row, beside.triangles);
        }
        goals_.beside.push_back(std::move(beside));
      }
  }

  void add_triangles_at(int row, std::vector<int>& triangles) const {
    const int node = model_.response.electrodes()
                         .nodes.mesh_node[static_cast<std::size_t>(row)];
    for (const mesh::BoundaryEdge& edge : model_.mesh.boundary)
      if (edge.nodes[0] == node || edge.nodes[1] == node)
        triangles.push_back(edge.triangle);
  }

  void solve_fields() {
    const auto count = static_cast<Index>(windows_.size());
    MatrixXd boundary(w_.answers.potential.rows(), units_ + count);
    boundary.leftCols(units_) = w_.answers.potential;
    if (count > 0)
      boundary.rightCols(count) = model_.response
                                      .solve(goals_.fields.conductivity,
                                             goals_.fields.laws, loads_, held_)
                                      .potential;
    goals_.fields.nodes = model_.response.everywhere(boundary);
    add_disc_loads(model_, boundary, goals_.fields);
    goals_.solution = VectorXd::Zero(units_ + count);
    goals_.solution.head(units_) = w_.drive;
    boundary_ = std::move(boundary);
  }

  VectorXd figures(const WorkingPoint& w) const {
    VectorXd f(3 + m_ + unit_.rows() +
               2 * static_cast<Index>(w.rectifiers.size()));
    f(Goals::voltage) = w.terminal_voltage;
    f(Goals::current) = w.total_current;
    f(Goals::resistance) = w.terminal_voltage / w.total_current;
    f.segment(3, m_) = w.current;
    Index next = 3 + m_ + unit_.rows();
    f.segment(3 + m_, unit_.rows()) = unit_ * w.drive;
    for (const AtRectifier& r : w.rectifiers) {
      f(next++) = r.voltage;
      f(next++) = r.current;
    }
    return f;
  }

  /// How the figures follow an error in each electrode's current at the drives
  /// of the working point: the supply's small equations, by differences.
  void find_duals(const VectorXd& base) {
    const Index count = unit_.rows();
    goals_.duals = MatrixXd::Zero(units_ + count, base.size());
    const double scale = w_.current.cwiseAbs().maxCoeff() / model_.scale.depth;
    const double step = 1e-6 * scale;
    for (Index j = 0; j < m_; ++j) {
      WorkingPoint moved = w_;
      moved.answers.current.row(j) +=
          step * w_.drive.transpose() / w_.drive.squaredNorm();
      operate(moved, case_, model_.scale);
      goals_.duals.row(j) = (figures(moved) - base).transpose() / step;
    }
    for (Index k = 0; k < count; ++k) goals_.duals(units_ + k, 3 + m_ + k) += 1;
  }

  /// d figure / d ln R = integral over the electrode of the law's current
  /// density times its dual; a window on the electrode itself also divides by
  /// that resistance.
  void find_slopes() {
    const VectorXd field = boundary_ * goals_.solution;
    const MatrixXd dual = boundary_ * goals_.duals;
    goals_.by_slope = MatrixXd::Zero(goals_.value.size(), m_);
    for (Index e = 0; e < m_; ++e) {
      const double r = resistance(static_cast<std::size_t>(e));
      if (r == 0 || w_.laws[static_cast<std::size_t>(e)].tangent) continue;
      const Electrode& electrode = each_[static_cast<std::size_t>(e)];
      const VectorXd over =
          (rows_of(electrode, field).array() - w_.drive(e)).matrix();
      MatrixXd z = rows_of(electrode, dual);
      z.rowwise() -= goals_.duals.row(e);
      goals_.by_slope.col(e) = z.transpose() * (electrode.mass * over) / r;
      for (std::size_t k = 0; k < windows_.size(); ++k)
        if (static_cast<Index>(windows_[k].electrode) == e) {
          const Index goal = 3 + m_ + static_cast<Index>(k);
          goals_.by_slope(goal, e) -= goals_.value(goal);
        }
    }
  }

  const Model& model_;
  const Case& case_;
  const Outcome& outcome_;
  const WorkingPoint& w_;
  const std::vector<Electrode>& each_;
  Index m_;      // electrodes
  Index units_;  // unit answers: one an electrode, and the tangents' rest
  std::vector<Window> windows_;
  MatrixXd loads_, held_;  // boundary rows x windows
  MatrixXd unit_;          // windows x electrodes: average for 1 V on each
  MatrixXd boundary_;      // boundary rows x fields
  Goals goals_;
};

}  // namespace

Goals find_goals(const Model& model, const Case& c, const Outcome& outcome) {
  return Finder(model, c, outcome).find();
}

double true_measure(const Model& model, const mesh::BoundaryEdge& edge) {
  const mesh::Curve& curve = mesh::curve_of(
      model.section.solids[static_cast<std::size_t>(edge.owner)].outline,
      edge.loop, edge.curve);
  const double size = mesh::length(curve) * std::abs(edge.t_from - edge.t_to);
  if (model.mesh.cut != mesh::Cut::axisymmetric) return size;
  double area = 0;
  for (const EdgePoint& q : gauss_rule())
    area += size * q.weight * 2 * std::numbers::pi *
            mesh::point_at(curve, edge.t_from + q.t * (edge.t_to - edge.t_from))
                .x();
  return area;
}

}  // namespace thinspot::solver
