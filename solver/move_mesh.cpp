#include "solver/move_mesh.hpp"

#include "mesh/jacobian.hpp"
#include "solver/elimination_order.hpp"
#include "solver/laplace.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::Matrix2Xd;
using Eigen::MatrixXd;
using mesh::Point;

/// A move is halved so many times before it is given up.
constexpr int kMostHalvings = 5;

/// Smallest Jacobian of a triangle over its largest.
constexpr double kLeastRatio = 0.01;

std::size_t at(int node) { return static_cast<std::size_t>(node); }

}  // namespace

Ties ties_of(const mesh::Mesh& mesh) {
  Ties ties;
  ties.held.assign(at(static_cast<int>(mesh.nodes.cols())), {false, false});
  for (const mesh::BoundaryEdge& e : mesh.boundary) {
    const Point along = mesh.nodes.col(e.nodes[1]) - mesh.nodes.col(e.nodes[0]);
    const Point half = mesh.nodes.col(e.nodes[2]) - mesh.nodes.col(e.nodes[0]);
    const double same = 1e-9 * along.norm();
    // Its middle may have slid along it.
    const double bend =
        std::abs(along.x() * half.y() - along.y() * half.x()) / along.norm();
    const bool slides = e.owner < 0 && bend < same;
    for (int node : e.nodes) {
      auto& [x, y] = ties.held[at(node)];
      if (!slides || std::abs(along.y()) > same) x = true;
      if (!slides || std::abs(along.x()) > same) y = true;
    }
  }
  return ties;
}

Following::Following(const mesh::Mesh& mesh, Ties ties)
    : ties_(std::move(ties)) {
  mesh::Mesh plane = mesh;
  plane.cut = mesh::Cut::side;  // no weight 2 pi r: it is no current
  const SparseMatrix stiffness = assemble_stiffness(plane);
  order_ = elimination_order(stiffness);
  const SparseMatrix by_places = in_order(stiffness, order_);
  // Each component on its own: a wall holds one and lets the other go.
  for (std::size_t axis = 0; axis < 2; ++axis) {
    std::vector<bool> held;
    for (int node : order_) held.push_back(ties_.held[at(node)][axis]);
    along_.emplace_back(by_places, held, Numbering::of_elimination);
  }
}

Matrix2Xd Following::operator()(const Matrix2Xd& move) const {
  Matrix2Xd all = move;
  for (Index axis = 0; axis < 2; ++axis) {
    MatrixXd component = move.row(axis)(order_).transpose();
    along_[static_cast<std::size_t>(axis)].solve(
        MatrixXd::Zero(component.rows(), 1), component);
    all.row(axis)(order_) = component.col(0).transpose();
  }
  return all;
}

std::optional<Point> find_fold(const mesh::Mesh& mesh) {
  for (Index t = 0; t < mesh.triangles.cols(); ++t) {
    const auto [least, largest] =
        mesh::jacobian_range(mesh, static_cast<int>(t));
    double longest = 0;
    for (Index k = 0; k < 3; ++k)
      longest =
          std::max(longest, (mesh.nodes.col(mesh.triangles(k, t)) -
                             mesh.nodes.col(mesh.triangles((k + 1) % 3, t)))
                                .squaredNorm());
    if (!(least > mesh::kFlat * longest) || !(least > kLeastRatio * largest))
      return mesh.nodes.col(mesh.triangles(0, t));
  }
  return std::nullopt;
}

bool move_nodes(mesh::Mesh& mesh, const Following& follow,
                const Matrix2Xd& move, std::optional<Point>& folded) {
  const mesh::Mesh before = mesh;
  double done = 0, step = 1;
  // As far as it goes at once, then the rest in halves.
  for (int halvings = 0; done < 1;) {
    step = std::min(step, 1 - done);
    mesh::Mesh next = mesh;
    next.nodes += halvings == 0 ? follow(move)
                                : Following(mesh, follow.ties())(step * move);
    folded = next.nodes.allFinite() ? find_fold(next)
                                    : std::optional<Point>(Point::Zero());
    if (!folded) {
      mesh = std::move(next);
      done += step;
    } else if (++halvings > kMostHalvings) {
      mesh = before;
      return false;
    } else {
      step *= 0.5;
    }
  }
  return true;
}

}  // namespace thinspot::solver
