#include "solver/half_response.hpp"

#include "mesh/errors.hpp"
#include "solver/turning_response.hpp"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>
#include <utility>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;

/// The waves of the inside, as its half was made, of those of the outside: at
/// the place b of the circle lies what was at b - turn or, flipped afterwards,
/// at pi - b - turn.
MatrixXd inside_of_outside(int waves, const mesh::Motion& motion) {
  MatrixXd t = MatrixXd::Zero(2 * waves + 1, 2 * waves + 1);
  t(0, 0) = 1;
  for (int n = 1; n <= waves; ++n) {
    const double c = std::cos(n * motion.turn), s = std::sin(n * motion.turn);
    // cos n (pi - a) is sign cos n a, sin n (pi - a) is -sign sin n a.
    const double sign = motion.flip && n % 2 == 1 ? -1 : 1;
    const double cosine = sign, sine = motion.flip ? -sign : sign;
    const Index k = 2 * n - 1;
    t(k, k) = c * cosine;
    t(k, k + 1) = s * sine;
    t(k + 1, k) = -s * cosine;
    t(k + 1, k + 1) = c * sine;
  }
  return t;
}

void add(const Electrodes& from, int first, Electrodes& to) {
  for (Electrode e : from.each) {
    for (int& row : e.rows) row += first;
    to.each.push_back(std::move(e));
  }
  to.nodes.mesh_node.insert(to.nodes.mesh_node.end(),
                            from.nodes.mesh_node.begin(),
                            from.nodes.mesh_node.end());
}

/// Of both halves, in the order of their solids.
Electrodes electrodes_of(const HalfResponse& inside,
                         const HalfResponse& outside, std::size_t part) {
  Electrodes both;
  add(inside.electrodes, 0, both);
  for (Electrode& e : both.each) e.solid = part;
  add(outside.electrodes, static_cast<int>(inside.rows()), both);
  std::stable_sort(
      both.each.begin(), both.each.end(),
      [](const auto& a, const auto& b) { return a.solid < b.solid; });
  return both;
}

}  // namespace

HalfResponse half_response(const mesh::Mesh& mesh, const mesh::Section& section,
                           mesh::DiscSide side, int waves) {
  const TurningResponse response(mesh, section, waves);
  return {response.electrodes(),
          response.of_side(side == mesh::DiscSide::inside), waves};
}

Response joined(const HalfResponse& inside, const HalfResponse& outside,
                std::size_t part, const mesh::Motion& motion) {
  const Index in = inside.rows(), out = outside.rows();
  const Index waves = 2 * inside.waves + 1;
  const MatrixXd t = inside_of_outside(inside.waves, motion);
  MatrixXd beside(in + out, waves);
  beside << inside.condensed.topRightCorner(in, waves) * t,
      outside.condensed.topRightCorner(out, waves);
  const MatrixXd on_circle =
      outside.condensed.bottomRightCorner(waves, waves) +
      t.transpose() * inside.condensed.bottomRightCorner(waves, waves) * t;
  const Eigen::LLT<MatrixXd> factor(on_circle);
  if (factor.info() != Eigen::Success)
    throw NoResultError(
        "the response around the part is not definite: the mesh or the section "
        "is unsound");
  const MatrixXd half = factor.matrixL().solve(beside.transpose());
  MatrixXd condensed = MatrixXd::Zero(in + out, in + out);
  condensed.topLeftCorner(in, in) = inside.condensed.topLeftCorner(in, in);
  condensed.bottomRightCorner(out, out) =
      outside.condensed.topLeftCorner(out, out);
  condensed.noalias() -= half.transpose() * half;
  return {electrodes_of(inside, outside, part), std::move(condensed)};
}

}  // namespace thinspot::solver
