#include "solver/local_errors.hpp"

#include "mesh/curve.hpp"
#include "mesh/liquid.hpp"
#include "solver/bubble_forms.hpp"
#include "solver/dual_columns.hpp"
#include "solver/element.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;
using Bubbles = Eigen::Matrix<double, kBubbles, 1>;

/// Triangles whose fields are multiplied with the duals at once: they stay in
/// the cache.
constexpr Index kTogether = 128;

/// A triangle's local problem: what its bubbles make of each other, and of the
/// residual of the fields.
struct LocalProblem {
  Eigen::Matrix<double, kBubbles, kBubbles> energy;
  /// Of the residual, what goes by the values at the triangle's own nodes, and,
  /// by edges, at those of its neighbours.
  Eigen::Matrix<double, kBubbles, 6> own;
  std::array<Eigen::Matrix<double, 2, 6>, 3> beyond;
  std::array<Index, 3> neighbour;  ///< -1: none
  /// And what belongs to one field alone.
  struct Entry {
    Index bubble, field;
    double value;
  };
  std::vector<Entry> entries;
};

class Estimator {
 public:
  Estimator(const mesh::Mesh& mesh, const mesh::Section& section,
            const Electrodes& electrodes, const Fields& fields)
      : mesh_(mesh),
        section_(section),
        fields_(fields),
        axisymmetric_(mesh.cut == mesh::Cut::axisymmetric),
        at_nodes_(fields.nodes),
        boundary_of_(static_cast<std::size_t>(mesh.nodes.cols()), -1),
        sides_(static_cast<std::size_t>(mesh.nodes.cols()), {-1, -1}),
        electrode_of_(section.solids.size(), -1) {
    for (std::size_t b = 0; b < mesh.boundary.size(); ++b)
      boundary_of_[static_cast<std::size_t>(mesh.boundary[b].nodes[2])] =
          static_cast<int>(b);
    for (std::size_t e = 0; e < electrodes.each.size(); ++e)
      electrode_of_[electrodes.each[e].solid] = static_cast<int>(e);
    loads_.resize(mesh.boundary.size());
    curved_.resize(mesh.boundary.size());
    for (std::size_t e = 0; e < electrodes.each.size(); ++e)
      if (const Tangent* tangent = fields.laws.tangent(e))
        for (std::size_t k = 0; k < tangent->edges.size(); ++k)
          curved_[electrodes.each[e].edges[k].boundary] = &tangent->edges[k];
    for (const EdgeLoad& l : fields.loads) loads_[l.edge].push_back(&l);
    for (Index t = 0; t < mesh.triangles.cols(); ++t) {
      outward_.push_back(outward_form(nodes_of(t), axisymmetric_));
      for (Index edge = 0; edge < 3; ++edge) {
        auto& sides =
            sides_[static_cast<std::size_t>(mesh.triangles(3 + edge, t))];
        sides[sides[0] < 0 ? 0 : 1] = 3 * t + edge;
      }
    }
  }

  LocalErrors errors(const VectorXd& solution, const DualColumns& duals) const {
    const Index triangles = mesh_.triangles.cols();
    const VectorXd field = fields_.nodes * solution;
    LocalErrors result;
    result.product.resize(triangles, duals.all().cols());
    result.geometry = MatrixXd::Zero(triangles, duals.all().cols());
    LocalProblem problem;
    for (Index first = 0; first < triangles; first += kTogether) {
      const Index count = std::min(kTogether, triangles - first);
      FieldRows by_field = FieldRows::Zero(count, solution.size());
      for (Index k = 0; k < count; ++k) {
        set_up(first + k, problem);
        const Bubbles error = problem.energy.llt().solve(
            residual(first + k, problem, field, solution));
        test_fields(first + k, problem, error, by_field.row(k));
      }
      result.product.middleRows(first, count) = duals.times(by_field);
    }
    add_geometry(solution, duals, result.geometry);
    return result;
  }

 private:
  TriangleNodes nodes_of(Index t) const {
    TriangleNodes p;
    for (Index k = 0; k < 6; ++k)
      p.col(k) = mesh_.nodes.col(mesh_.triangles(k, t));
    return p;
  }

  /// Triangles and their edges, 3 t + edge, on both sides of one's edge.
  const std::array<Index, 2>& sides_of(Index t, Index edge) const {
    return sides_[static_cast<std::size_t>(mesh_.triangles(3 + edge, t))];
  }

  double weight(const TriangleNodes& p,
                const Eigen::Matrix<double, 6, 1>& n) const {
    return around(axisymmetric_, p, n);
  }

  /// Index of the electrode whose bare metal a boundary edge is; -1: none.
  int electrode(const mesh::BoundaryEdge& e) const {
    return e.owner < 0 || e.masked
               ? -1
               : electrode_of_[static_cast<std::size_t>(e.owner)];
  }

  void set_up(Index t, LocalProblem& problem) const {
    const TriangleNodes p = nodes_of(t);
    const BubbleForms forms = bubble_forms(p, axisymmetric_);
    problem.energy = fields_.conductivity * forms.energy;
    problem.own = -fields_.conductivity * forms.mixed;
    problem.entries.clear();
    for (Index edge = 0; edge < 3; ++edge) {
      const int b =
          boundary_of_[static_cast<std::size_t>(mesh_.triangles(3 + edge, t))];
      auto& neighbour = problem.neighbour[static_cast<std::size_t>(edge)];
      neighbour = -1;
      if (b >= 0) {
        add_bound(t, edge, static_cast<std::size_t>(b), p, problem);
        continue;
      }
      // Tested: the outward flux less the mean of both sides. The other side
      // walks the edge the other way, and out of it is into this one.
      const auto& sides = sides_of(t, edge);
      const Index side = sides[sides[0] == 3 * t + edge ? 1 : 0];
      neighbour = side / 3;
      const double half = 0.5 * fields_.conductivity;
      const auto& beyond = outward_[static_cast<std::size_t>(neighbour)];
      auto& other = problem.beyond[static_cast<std::size_t>(edge)];
      other.row(0) = half * beyond.row(2 * (side % 3));
      other.row(1) = -half * beyond.row(2 * (side % 3) + 1);
      problem.own.middleRows<2>(2 * edge) +=
          half * outward_[static_cast<std::size_t>(t)].middleRows<2>(2 * edge);
    }
  }

  void add_bound(Index t, Index edge, std::size_t b, const TriangleNodes& p,
                 LocalProblem& problem) const {
    const mesh::BoundaryEdge& of = mesh_.boundary[b];
    const int e = electrode(of);
    const Index first = 2 * edge;
    const double resistance =
        e < 0 ? 0 : fields_.laws.resistance[static_cast<std::size_t>(e)];
    if (e >= 0 && resistance == 0) {  // held: no bubble on this edge
      problem.energy.middleRows<2>(first).setZero();
      problem.energy.middleCols<2>(first).setZero();
      problem.energy(first, first) = problem.energy(first + 1, first + 1) = 1;
      problem.own.middleRows<2>(first).setZero();
      return;
    }
    const bool same_way = of.nodes[0] == mesh_.triangles(edge, t);
    for (const EdgeLoad* l : loads_[b]) {
      problem.entries.push_back(
          {first, l->field, (same_way ? 1 : -1) * l->load(0)});
      problem.entries.push_back({first + 1, l->field, l->load(1)});
    }
    if (e < 0) return;  // insulating: no flux is the target
    const EdgeSamples& s = edge_samples(static_cast<std::size_t>(edge));
    const Tangent::AtEdge* curved = curved_[b];
    Eigen::Vector2d drive = Eigen::Vector2d::Zero(), rest = drive;
    for (std::size_t q = 0; q < 4; ++q) {
      const Eigen::Vector2d tangent = p * s.gradient[q] * s.along;
      const double size =
          gauss_rule()[q].weight * tangent.norm() * weight(p, s.shape[q]);
      const std::size_t at = same_way ? q : 3 - q;
      const double w = size * (curved ? curved->slope[at] : 1 / resistance);
      problem.own.middleRows<2>(first) -=
          w * s.bubbles[q] * s.shape[q].transpose();
      problem.energy.block<2, 2>(first, first) +=
          w * s.bubbles[q] * s.bubbles[q].transpose();
      drive += w * s.bubbles[q];
      if (curved) rest -= size * curved->rest[at] * s.bubbles[q];
    }
    for (Index k : {0, 1}) {
      problem.entries.push_back({first + k, e, drive(k)});
      if (curved) problem.entries.push_back({first + k, rest_field(), rest(k)});
    }
  }

  /// Residual of one combination of the fields.
  Bubbles residual(Index t, const LocalProblem& problem, const VectorXd& field,
                   const VectorXd& coefficients) const {
    Bubbles r = problem.own * field(mesh_.triangles.col(t));
    for (std::size_t edge = 0; edge < 3; ++edge)
      if (problem.neighbour[edge] >= 0)
        r.segment<2>(static_cast<Index>(2 * edge)) +=
            problem.beyond[edge] *
            field(mesh_.triangles.col(problem.neighbour[edge]));
    for (const LocalProblem::Entry& entry : problem.entries)
      r(entry.bubble) += entry.value * coefficients(entry.field);
    return r;
  }

  /// Adds the residual of every field, tested with one function.
  void test_fields(Index t, const LocalProblem& problem, const Bubbles& with,
                   FieldRows::RowXpr into) const {
    const auto add = [&](Index triangle,
                         const Eigen::Matrix<double, 1, 6>& weights) {
      for (Index k = 0; k < 6; ++k)
        into += weights(k) * at_nodes_.row(mesh_.triangles(k, triangle));
    };
    add(t, with.transpose() * problem.own);
    for (std::size_t edge = 0; edge < 3; ++edge)
      if (problem.neighbour[edge] >= 0)
        add(problem.neighbour[edge],
            with.segment<2>(static_cast<Index>(2 * edge)).transpose() *
                problem.beyond[edge]);
    for (const LocalProblem::Entry& entry : problem.entries)
      into(entry.field) += entry.value * with(entry.bubble);
  }

  /// How far the P2 edge is from its true curve, and longer or shorter than it.
  struct Off {
    const mesh::BoundaryEdge* edge;
    double distance = 0, size = 0, longer = 0;
  };
  std::vector<Off> curved_edges() const {
    std::vector<Off> all;
    for (const mesh::BoundaryEdge& e : mesh_.boundary) {
      const mesh::Curve& curve =
          mesh::curve_of(section_, e.owner, e.loop, e.curve);
      if (!mesh::is_arc(curve)) continue;
      Eigen::Matrix<double, 2, 3> p;
      for (std::size_t k = 0; k < 3; ++k)
        p.col(static_cast<Index>(k)) = mesh_.nodes.col(e.nodes[k]);
      Off off{&e};
      for (const EdgePoint& q : gauss_rule()) {
        const mesh::Point at = p * edge_functions(q.t);
        // A disc's edges may have turned onto another of its quarters.
        off.distance +=
            q.weight * (e.owner == mesh::kDisc
                            ? std::abs((at - mesh::centre(curve)).norm() -
                                       mesh::radius(curve))
                            : mesh::nearest(curve, at).distance);
        off.size += q.weight * (p * edge_derivatives(q.t)).norm();
      }
      off.longer = std::abs(off.size -
                            mesh::length(curve) * std::abs(e.t_from - e.t_to));
      all.push_back(off);
    }
    return all;
  }

  /// Where the P2 edge leaves its true curve by d, the liquid there gains or
  /// loses d times the densities of energy: in the liquid and, as the edge is
  /// longer or shorter, of the law. Gradients in the middle of the triangle
  /// serve for the edge beside it.
  void add_geometry(const VectorXd& solution, const DualColumns& duals,
                    MatrixXd& geometry) const {
    const Eigen::Matrix<double, 6, 1> middle = shape_functions(1. / 3, 1. / 3);
    const Eigen::Matrix<double, 6, 2> g = shape_gradients(1. / 3, 1. / 3);
    const std::vector<Off> edges = curved_edges();
    // Of each edge the gradient, two rows, and the mean along it.
    FieldRows rows =
        FieldRows::Zero(3 * static_cast<Index>(edges.size()), solution.size());
    for (std::size_t k = 0; k < edges.size(); ++k) {
      const mesh::BoundaryEdge& e = *edges[k].edge;
      const auto first = static_cast<Index>(3 * k);
      const Eigen::Matrix<double, 6, 2> slope =
          g * (nodes_of(e.triangle) * g).inverse();
      for (Index n = 0; n < 6; ++n) {
        const auto at = at_nodes_.row(mesh_.triangles(n, e.triangle));
        for (Index way : {0, 1}) rows.row(first + way) += slope(n, way) * at;
      }
      for (int node : e.nodes) rows.row(first + 2) += at_nodes_.row(node) / 3;
    }
    const MatrixXd of_duals = duals.times(rows);
    const VectorXd of_solution = rows * solution;
    for (std::size_t k = 0; k < edges.size(); ++k) {
      const mesh::BoundaryEdge& e = *edges[k].edge;
      const auto first = static_cast<Index>(3 * k);
      const double w = weight(nodes_of(e.triangle), middle);
      auto change = geometry.row(e.triangle);
      change += fields_.conductivity * w * edges[k].distance * edges[k].size *
                of_solution.segment<2>(first).norm() *
                of_duals.middleRows<2>(first).colwise().norm();
      const int el = electrode(e);
      if (el < 0 || fields_.laws.resistance[static_cast<std::size_t>(el)] == 0)
        continue;
      const auto of = static_cast<std::size_t>(&e - mesh_.boundary.data());
      const double steep =
          curved_[of]
              ? mean(curved_[of]->slope)
              : 1 / fields_.laws.resistance[static_cast<std::size_t>(el)];
      const double rest = curved_[of] ? mean(curved_[of]->rest) : 0;
      const double over = of_solution(first + 2) - solution(el);
      change += w * edges[k].longer * std::abs(steep * over + rest) *
                (of_duals.row(first + 2) - duals.all().row(el)).cwiseAbs();
    }
  }

  /// The field that carries the rest of the tangents.
  Index rest_field() const {
    return static_cast<Index>(fields_.laws.resistance.size());
  }

  static double mean(const std::array<double, 4>& of) {
    return 0.25 * (of[0] + of[1] + of[2] + of[3]);
  }

  const mesh::Mesh& mesh_;
  const mesh::Section& section_;
  const Fields& fields_;
  bool axisymmetric_;
  FieldRows at_nodes_;
  std::vector<int> boundary_of_;  // of a middle node: boundary edge, or -1
  std::vector<std::array<Index, 2>> sides_;          // of a middle node
  std::vector<int> electrode_of_;                    // of a solid
  std::vector<OutwardForm> outward_;                 // of a triangle
  std::vector<std::vector<const EdgeLoad*>> loads_;  // of a boundary edge
  std::vector<const Tangent::AtEdge*> curved_;       // of a boundary edge
};

}  // namespace

LocalErrors local_errors(const mesh::Mesh& mesh, const mesh::Section& section,
                         const Electrodes& electrodes, const Fields& fields,
                         const Eigen::VectorXd& solution,
                         const MatrixXd& duals) {
  return Estimator(mesh, section, electrodes, fields)
      .errors(solution, DualColumns(duals));
}

}  // namespace thinspot::solver
