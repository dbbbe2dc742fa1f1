#include "solver/local_errors.hpp"

#include "mesh/curve.hpp"
#include "mesh/liquid.hpp"
#include "solver/bubbles.hpp"
#include "solver/element.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Nodes = Eigen::Matrix<double, 2, 6>;
using Square = Eigen::Matrix<double, kBubbles, kBubbles>;
using Mixed = Eigen::Matrix<double, kBubbles, 6>;
using Rows = Eigen::Matrix<double, kBubbles, Eigen::Dynamic>;
using Flux = Eigen::Matrix<double, 4, Eigen::Dynamic>;  // at Gauss points

/// A local edge's Gauss points, walked from corner k to corner k + 1.
struct EdgeSamples {
  std::array<Eigen::Matrix<double, 6, 1>, 4> shape;
  std::array<Eigen::Matrix<double, 6, 2>, 4> gradient;
  std::array<Eigen::Vector2d, 4> bubbles;
  Eigen::Vector2d along;  ///< direction in the reference triangle
};

std::array<EdgeSamples, 3> make_samples() {
  const std::array<Eigen::Vector2d, 3> corner{
      Eigen::Vector2d(0, 0), Eigen::Vector2d(1, 0), Eigen::Vector2d(0, 1)};
  std::array<EdgeSamples, 3> samples;
  for (std::size_t k = 0; k < 3; ++k) {
    const Eigen::Vector2d from = corner[k], to = corner[(k + 1) % 3];
    samples[k].along = to - from;
    for (std::size_t q = 0; q < 4; ++q) {
      const double t = gauss_rule()[q].t;
      const Eigen::Vector2d at = from + t * (to - from);
      samples[k].shape[q] = shape_functions(at.x(), at.y());
      samples[k].gradient[q] = shape_gradients(at.x(), at.y());
      samples[k].bubbles[q] = edge_bubbles(t);
    }
  }
  return samples;
}

/// Integrals of products of gradients over the reference triangle, by pairs of
/// directions xx, xy + yx, yy.
struct ReferenceMatrices {
  std::array<Square, 3> bubbles;
  std::array<Mixed, 3> mixed;
};

ReferenceMatrices make_reference() {
  ReferenceMatrices r;
  for (Square& m : r.bubbles) m.setZero();
  for (Mixed& m : r.mixed) m.setZero();
  for (const BubblePoint& q : degree_6_rule()) {
    const auto& b = q.bubble_gradient;
    const auto& g = q.shape_gradient;
    const auto add = [&](auto& into, const auto& h) {
      into[0] += q.weight * b.col(0) * h.col(0).transpose();
      into[1] += q.weight * (b.col(0) * h.col(1).transpose() +
                             b.col(1) * h.col(0).transpose());
      into[2] += q.weight * b.col(1) * h.col(1).transpose();
    };
    add(r.bubbles, b);
    add(r.mixed, g);
  }
  return r;
}

class Estimator {
 public:
  Estimator(const mesh::Mesh& mesh, const mesh::Section& section,
            const Electrodes& electrodes, const Fields& fields)
      : mesh_(mesh),
        section_(section),
        fields_(fields),
        axisymmetric_(mesh.cut == mesh::Cut::axisymmetric),
        boundary_of_(static_cast<std::size_t>(mesh.nodes.cols()), -1),
        electrode_of_(section.solids.size(), -1),
        values_(6, fields.nodes.cols()),
        flux_(4, fields.nodes.cols()) {
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
    sum_fluxes();
  }

  LocalErrors errors(const Eigen::VectorXd& solution, const MatrixXd& duals) {
    const Index triangles = mesh_.triangles.cols();
    Square energy;
    Rows residual(kBubbles, solution.size());
    Eigen::RowVectorXd by_field(solution.size());
    LocalErrors result;
    result.product.resize(triangles, duals.cols());
    result.geometry = MatrixXd::Zero(triangles, duals.cols());
    for (Index t = 0; t < triangles; ++t) {
      set_up(t, energy, residual);
      const Eigen::Matrix<double, kBubbles, 1> load = residual * solution;
      const Eigen::Matrix<double, kBubbles, 1> error = energy.llt().solve(load);
      by_field.noalias() = error.transpose() * residual;
      result.product.row(t).noalias() = by_field * duals;
    }
    for (const mesh::BoundaryEdge& e : mesh_.boundary)
      result.geometry.row(e.triangle) += geometry_of(e, solution, duals);
    return result;
  }

 private:
  Nodes nodes_of(Index t) const {
    Nodes p;
    for (Index k = 0; k < 6; ++k)
      p.col(k) = mesh_.nodes.col(mesh_.triangles(k, t));
    return p;
  }

  /// Into the one place for them: nothing is allocated for each triangle.
  const MatrixXd& values_of(Index t) {
    for (Index k = 0; k < 6; ++k)
      values_.row(k) = fields_.nodes.row(mesh_.triangles(k, t));
    return values_;
  }

  double weight(const Nodes& p, const Eigen::Matrix<double, 6, 1>& n) const {
    return axisymmetric_ ? 2 * std::numbers::pi * p.row(0).dot(n) : 1;
  }

  /// Index of the electrode whose bare metal a boundary edge is; -1: none.
  int electrode(const mesh::BoundaryEdge& e) const {
    return e.owner < 0 || e.masked
               ? -1
               : electrode_of_[static_cast<std::size_t>(e.owner)];
  }

  /// Outward flux at the Gauss points of a local edge, times length.
  const Flux& flux(const Nodes& p, const MatrixXd& u, std::size_t edge) {
    static const auto samples = make_samples();
    const EdgeSamples& s = samples[edge];
    for (std::size_t q = 0; q < 4; ++q) {
      const Eigen::Matrix2d jacobian = p * s.gradient[q];
      const Eigen::Vector2d tangent = jacobian * s.along;
      const Eigen::Vector2d outward(tangent.y(), -tangent.x());
      const Eigen::Matrix<double, 6, 1> slope =
          fields_.conductivity * weight(p, s.shape[q]) * s.gradient[q] *
          (jacobian.inverse() * outward);
      flux_.row(static_cast<Index>(q)).noalias() = slope.transpose() * u;
    }
    return flux_;
  }

  /// Both sides of an edge count its Gauss points from its lower node.
  bool turned(Index t, std::size_t edge) const {
    const auto k = static_cast<Index>(edge);
    return mesh_.triangles(k, t) > mesh_.triangles((k + 1) % 3, t);
  }

  Eigen::Block<MatrixXd> jump_of(Index t, std::size_t edge) {
    return jumps_.block(4 * mesh_.triangles(static_cast<Index>(3 + edge), t), 0,
                        4, jumps_.cols());
  }

  void sum_fluxes() {
    jumps_ = MatrixXd::Zero(4 * mesh_.nodes.cols(), fields_.nodes.cols());
    for (Index t = 0; t < mesh_.triangles.cols(); ++t) {
      const Nodes p = nodes_of(t);
      const MatrixXd& u = values_of(t);
      for (std::size_t edge = 0; edge < 3; ++edge) {
        const Flux& f = flux(p, u, edge);
        if (turned(t, edge))
          jump_of(t, edge) += f.colwise().reverse();
        else
          jump_of(t, edge) += f;
      }
    }
  }

  void set_up(Index t, Square& energy, Rows& residual) {
    const Nodes p = nodes_of(t);
    const MatrixXd& u = values_of(t);
    Mixed mixed;
    add_inside(p, energy, mixed);
    residual.noalias() = -mixed * u;
    for (std::size_t edge = 0; edge < 3; ++edge) {
      const auto middle = static_cast<std::size_t>(
          mesh_.triangles(static_cast<Index>(3 + edge), t));
      const int b = boundary_of_[middle];
      if (b < 0) {
        flux(p, u, edge);
        if (turned(t, edge))
          flux_ -= 0.5 * jump_of(t, edge).colwise().reverse();
        else
          flux_ -= 0.5 * jump_of(t, edge);
        test(flux_, edge, residual);
      } else {
        add_law(t, edge, static_cast<std::size_t>(b), p, u, energy, residual);
      }
    }
  }

  void add_inside(const Nodes& p, Square& energy, Mixed& mixed) const {
    static const ReferenceMatrices reference = make_reference();
    const Eigen::Vector2d a = p.col(1) - p.col(0), b = p.col(2) - p.col(0);
    const double bend = (p.col(3) - 0.5 * (p.col(0) + p.col(1))).norm() +
                        (p.col(4) - 0.5 * (p.col(1) + p.col(2))).norm() +
                        (p.col(5) - 0.5 * (p.col(2) + p.col(0))).norm();
    if (!axisymmetric_ && bend < 1e-13 * (a.norm() + b.norm())) {
      Eigen::Matrix2d jacobian;
      jacobian << a, b;
      const Eigen::Matrix2d back = jacobian.inverse();
      const Eigen::Matrix2d metric = fields_.conductivity *
                                     jacobian.determinant() * back *
                                     back.transpose();
      energy = metric(0, 0) * reference.bubbles[0] +
               metric(0, 1) * reference.bubbles[1] +
               metric(1, 1) * reference.bubbles[2];
      mixed = metric(0, 0) * reference.mixed[0] +
              metric(0, 1) * reference.mixed[1] +
              metric(1, 1) * reference.mixed[2];
      return;
    }
    energy.setZero();
    mixed.setZero();
    for (const BubblePoint& q : degree_6_rule()) {
      const Eigen::Matrix2d jacobian = p * q.shape_gradient;
      const Eigen::Matrix2d back = jacobian.inverse();
      const double w = fields_.conductivity * q.weight *
                       jacobian.determinant() * weight(p, q.shape);
      const BubbleGradients d = q.bubble_gradient * back;
      energy.noalias() += w * d * d.transpose();
      mixed.noalias() += w * d * (q.shape_gradient * back).transpose();
    }
  }

  /// Adds what a flux at the Gauss points does to the edge's bubbles.
  void test(const Flux& flux, std::size_t edge, Rows& residual) const {
    static const auto samples = make_samples();
    for (std::size_t q = 0; q < 4; ++q)
      for (Index k : {0, 1})
        residual.row(static_cast<Index>(2 * edge) + k) +=
            gauss_rule()[q].weight * samples[edge].bubbles[q](k) *
            flux.row(static_cast<Index>(q));
  }

  void add_law(Index t, std::size_t edge, std::size_t b, const Nodes& p,
               const MatrixXd& u, Square& energy, Rows& residual) const {
    static const auto samples = make_samples();
    const mesh::BoundaryEdge& of = mesh_.boundary[b];
    const int e = electrode(of);
    const auto first = static_cast<Index>(2 * edge);
    if (e < 0) {  // insulating: no flux is the target; of a disc its loads
      add_loads(t, edge, b, residual);
      return;
    }
    const double resistance =
        fields_.laws.resistance[static_cast<std::size_t>(e)];
    if (resistance == 0) {  // held: no bubble on this edge
      energy.middleRows(first, 2).setZero();
      energy.middleCols(first, 2).setZero();
      energy(first, first) = energy(first + 1, first + 1) = 1;
      residual.middleRows(first, 2).setZero();
      return;
    }
    const EdgeSamples& s = samples[edge];
    const Tangent::AtEdge* curved = curved_[b];
    const bool same_way =
        of.nodes[0] == mesh_.triangles(static_cast<Index>(edge), t);
    for (std::size_t q = 0; q < 4; ++q) {
      const Eigen::Vector2d tangent = p * s.gradient[q] * s.along;
      const double size =
          gauss_rule()[q].weight * tangent.norm() * weight(p, s.shape[q]);
      const std::size_t at = same_way ? q : 3 - q;
      const double w = size * (curved ? curved->slope[at] : 1 / resistance);
      Eigen::RowVectorXd target = -w * s.shape[q].transpose() * u;
      target(e) += w;
      if (curved) target(rest_field()) -= size * curved->rest[at];
      residual.middleRows(first, 2) += s.bubbles[q] * target;
      energy.block<2, 2>(first, first) +=
          w * s.bubbles[q] * s.bubbles[q].transpose();
    }
    add_loads(t, edge, b, residual);
  }

  void add_loads(Index t, std::size_t edge, std::size_t b,
                 Rows& residual) const {
    const auto first = static_cast<Index>(2 * edge);
    const bool along = mesh_.boundary[b].nodes[0] ==
                       mesh_.triangles(static_cast<Index>(edge), t);
    for (const EdgeLoad* l : loads_[b]) {
      residual(first, l->field) += (along ? 1 : -1) * l->load(0);
      residual(first + 1, l->field) += l->load(1);
    }
  }

  /// Where the P2 edge leaves its true curve by d, the liquid there gains or
  /// loses d times the densities of energy: in the liquid and, as the edge is
  /// longer or shorter, of the law.
  Eigen::RowVectorXd geometry_of(const mesh::BoundaryEdge& e,
                                 const Eigen::VectorXd& solution,
                                 const MatrixXd& duals) {
    const mesh::Curve& curve =
        mesh::curve_of(section_, e.owner, e.loop, e.curve);
    const Index goals = duals.cols();
    if (!mesh::is_arc(curve)) return Eigen::RowVectorXd::Zero(goals);
    Eigen::Matrix<double, 2, 3> p;
    for (std::size_t k = 0; k < 3; ++k)
      p.col(static_cast<Index>(k)) = mesh_.nodes.col(e.nodes[k]);
    double off = 0, size = 0;
    for (const EdgePoint& q : gauss_rule()) {
      const mesh::Point at = p * edge_functions(q.t);
      // A disc's edges may have turned onto another of its quarters.
      off += q.weight * (e.owner == mesh::kDisc
                             ? std::abs((at - mesh::centre(curve)).norm() -
                                        mesh::radius(curve))
                             : mesh::nearest(curve, at).distance);
      size += q.weight * (p * edge_derivatives(q.t)).norm();
    }
    const double wanted = mesh::length(curve) * std::abs(e.t_from - e.t_to);
    const Nodes nodes = nodes_of(e.triangle);
    const MatrixXd& u = values_of(e.triangle);
    // Gradients in the middle of the triangle serve for the edge beside it.
    const Eigen::Matrix<double, 6, 2> g = shape_gradients(1. / 3, 1. / 3);
    const Eigen::Matrix<double, 2, 6> slope =
        (g * (nodes * g).inverse()).transpose();
    const Eigen::Vector2d field = slope * (u * solution);
    const Eigen::Matrix2Xd dual = slope * (u * duals);
    const double w = weight(nodes, shape_functions(1. / 3, 1. / 3));
    Eigen::RowVectorXd change = fields_.conductivity * w * off * size *
                                field.norm() * dual.colwise().norm();
    const int el = electrode(e);
    if (el < 0 || fields_.laws.resistance[static_cast<std::size_t>(el)] == 0)
      return change;
    const auto of = static_cast<std::size_t>(&e - mesh_.boundary.data());
    const double steep =
        curved_[of] ? mean(curved_[of]->slope)
                    : 1 / fields_.laws.resistance[static_cast<std::size_t>(el)];
    const double rest = curved_[of] ? mean(curved_[of]->rest) : 0;
    Eigen::RowVectorXd z(goals);
    double over = -solution(el);
    for (Index q = 0; q < goals; ++q) z(q) = -duals(el, q);
    for (Index k : {0, 1, 2}) {
      const Index node = e.nodes[static_cast<std::size_t>(k)];
      over += fields_.nodes.row(node).dot(solution) / 3;
      z += fields_.nodes.row(node) * duals / 3;
    }
    change += w * std::abs(size - wanted) * std::abs(steep * over + rest) *
              z.cwiseAbs();
    return change;
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
  std::vector<int> boundary_of_;   // of a middle node: boundary edge, or -1
  std::vector<int> electrode_of_;  // of a solid
  std::vector<std::vector<const EdgeLoad*>> loads_;  // of a boundary edge
  std::vector<const Tangent::AtEdge*> curved_;       // of a boundary edge
  MatrixXd values_;  // of all fields at the six nodes of a triangle
  Flux flux_;        // at the Gauss points of one of its edges
  MatrixXd jumps_;   // 4 rows a middle node: outward fluxes of both sides
};

}  // namespace

LocalErrors local_errors(const mesh::Mesh& mesh, const mesh::Section& section,
                         const Electrodes& electrodes, const Fields& fields,
                         const Eigen::VectorXd& solution,
                         const MatrixXd& duals) {
  return Estimator(mesh, section, electrodes, fields).errors(solution, duals);
}

}  // namespace thinspot::solver
