#include "solver/bubble_forms.hpp"

#include "solver/element.hpp"

#include <Eigen/Dense>

#include <numbers>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::Matrix2d;
using Eigen::Vector2d;
using Square = Eigen::Matrix<double, kBubbles, kBubbles>;
using Mixed = Eigen::Matrix<double, kBubbles, 6>;
using OfEdge = Eigen::Matrix<double, 2, 6>;

std::array<EdgeSamples, 3> make_samples() {
  const std::array<Vector2d, 3> corner{Vector2d(0, 0), Vector2d(1, 0),
                                       Vector2d(0, 1)};
  std::array<EdgeSamples, 3> samples;
  for (std::size_t k = 0; k < 3; ++k) {
    const Vector2d from = corner[k], to = corner[(k + 1) % 3];
    samples[k].along = to - from;
    for (std::size_t q = 0; q < 4; ++q) {
      const double t = gauss_rule()[q].t;
      const Vector2d at = from + t * (to - from);
      samples[k].shape[q] = shape_functions(at.x(), at.y());
      samples[k].gradient[q] = shape_gradients(at.x(), at.y());
      samples[k].bubbles[q] = edge_bubbles(t);
    }
  }
  return samples;
}

/// The integrals over the reference triangle: by pairs of directions xx,
/// xy + yx, yy; along its edges by direction.
struct ReferenceForms {
  std::array<Square, 3> energy;
  std::array<Mixed, 3> mixed;
  std::array<std::array<OfEdge, 2>, 3> along;
};

ReferenceForms make_reference() {
  ReferenceForms r;
  for (Square& m : r.energy) m.setZero();
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
    add(r.energy, b);
    add(r.mixed, g);
  }
  for (std::size_t edge = 0; edge < 3; ++edge) {
    const EdgeSamples& s = edge_samples(edge);
    for (std::size_t way = 0; way < 2; ++way) {
      OfEdge& m = r.along[edge][way];
      m.setZero();
      for (std::size_t q = 0; q < 4; ++q)
        m += gauss_rule()[q].weight * s.bubbles[q] *
             s.gradient[q].col(static_cast<Index>(way)).transpose();
    }
  }
  return r;
}

Vector2d right_of(const Vector2d& v) { return {v.y(), -v.x()}; }

const ReferenceForms& reference() {
  static const ReferenceForms forms = make_reference();
  return forms;
}

/// Planar, and its middle nodes in the middle: its map is linear.
bool is_plain(const TriangleNodes& p, bool axisymmetric) {
  if (axisymmetric) return false;
  const double bend = (p.col(3) - 0.5 * (p.col(0) + p.col(1))).norm() +
                      (p.col(4) - 0.5 * (p.col(1) + p.col(2))).norm() +
                      (p.col(5) - 0.5 * (p.col(2) + p.col(0))).norm();
  return bend <
         1e-13 * ((p.col(1) - p.col(0)).norm() + (p.col(2) - p.col(0)).norm());
}

Matrix2d plain_jacobian(const TriangleNodes& p) {
  Matrix2d jacobian;
  jacobian << p.col(1) - p.col(0), p.col(2) - p.col(0);
  return jacobian;
}

}  // namespace

const EdgeSamples& edge_samples(std::size_t edge) {
  static const auto samples = make_samples();
  return samples[edge];
}

double around(bool axisymmetric, const TriangleNodes& nodes,
              const Eigen::Matrix<double, 6, 1>& shape) {
  return axisymmetric ? 2 * std::numbers::pi * nodes.row(0).dot(shape) : 1;
}

BubbleForms bubble_forms(const TriangleNodes& p, bool axisymmetric) {
  BubbleForms f;
  if (is_plain(p, axisymmetric)) {
    const Matrix2d jacobian = plain_jacobian(p), back = jacobian.inverse();
    const Matrix2d metric = jacobian.determinant() * back * back.transpose();
    const auto sum = [&](const auto& of) {
      return (metric(0, 0) * of[0] + metric(0, 1) * of[1] +
              metric(1, 1) * of[2])
          .eval();
    };
    f.energy = sum(reference().energy);
    f.mixed = sum(reference().mixed);
    return f;
  }
  f.energy.setZero();
  f.mixed.setZero();
  for (const BubblePoint& q : degree_6_rule()) {
    const Matrix2d jacobian = p * q.shape_gradient;
    const Matrix2d back = jacobian.inverse();
    const double w =
        q.weight * jacobian.determinant() * around(axisymmetric, p, q.shape);
    const BubbleGradients d = q.bubble_gradient * back;
    f.energy.noalias() += w * d * d.transpose();
    f.mixed.noalias() += w * d * (q.shape_gradient * back).transpose();
  }
  return f;
}

OutwardForm outward_form(const TriangleNodes& p, bool axisymmetric) {
  OutwardForm f;
  f.setZero();
  const bool plain = is_plain(p, axisymmetric);
  const Matrix2d jacobian = plain_jacobian(p), back = jacobian.inverse();
  for (std::size_t edge = 0; edge < 3; ++edge) {
    const EdgeSamples& s = edge_samples(edge);
    auto of_edge = f.middleRows<2>(static_cast<Index>(2 * edge));
    if (plain) {
      const Vector2d out = back * right_of(jacobian * s.along);
      of_edge = out.x() * reference().along[edge][0] +
                out.y() * reference().along[edge][1];
      continue;
    }
    for (std::size_t q = 0; q < 4; ++q) {
      const Matrix2d there = p * s.gradient[q];
      const Eigen::Matrix<double, 6, 1> slope =
          s.gradient[q] * (there.inverse() * right_of(there * s.along));
      of_edge += gauss_rule()[q].weight * around(axisymmetric, p, s.shape[q]) *
                 s.bubbles[q] * slope.transpose();
    }
  }
  return f;
}

}  // namespace thinspot::solver
