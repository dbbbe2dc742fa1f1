#include "viz/fine_mesh.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <unordered_map>
#include <vector>

namespace thinspot::viz {

namespace {

/// A point of the lattice in a triangle: weights of the corners, in parts.
using Lattice = std::array<int, 3>;

/// Names a point by the mesh's corner numbers, the same from both sides of an
/// edge; points inside a triangle get names of their own.
class PointNames {
 public:
  PointNames(const mesh::Mesh& mesh, int parts)
      : corners_(static_cast<std::int64_t>(mesh.nodes.cols())), parts_(parts) {}

  std::int64_t name(const std::array<int, 3>& corner, const Lattice& at) {
    // Sort the corners that count; two or one of them tell the point.
    int a = -1, b = -1;
    for (std::size_t k = 0; k < 3; ++k) {
      if (at[k] == 0) continue;
      if (a < 0)
        a = static_cast<int>(k);
      else if (b < 0)
        b = static_cast<int>(k);
      else
        return next_inner_--;
    }
    if (b < 0) return corner[static_cast<std::size_t>(a)];
    auto from = static_cast<std::size_t>(a);
    auto to = static_cast<std::size_t>(b);
    if (corner[from] > corner[to]) std::swap(from, to);
    return corners_ +
           (static_cast<std::int64_t>(corner[from]) * corners_ + corner[to]) *
               parts_ +
           at[to];
  }

 private:
  std::int64_t corners_;
  std::int64_t parts_;
  std::int64_t next_inner_ = -1;
};

/// Shape functions of the quadratic triangle, nodes as in mesh::Mesh.
Eigen::Matrix<double, 6, 1> shape(double l0, double l1, double l2) {
  Eigen::Matrix<double, 6, 1> n;
  n << l0 * (2 * l0 - 1), l1 * (2 * l1 - 1), l2 * (2 * l2 - 1), 4 * l0 * l1,
      4 * l1 * l2, 4 * l2 * l0;
  return n;
}

}  // namespace

FineMesh fine_mesh(const solver::Result& result, int wanted) {
  const mesh::Mesh& mesh = result.mesh;
  const Eigen::Index count = std::max<Eigen::Index>(mesh.triangles.cols(), 1);
  const int parts = std::clamp(
      static_cast<int>(std::lround(
          std::sqrt(static_cast<double>(wanted) / static_cast<double>(count)))),
      1, 8);
  PointNames names(mesh, parts);
  std::unordered_map<std::int64_t, int> number;
  std::vector<std::array<double, 5>> points;  // x, y, volts, current x, y
  std::vector<Eigen::Vector3i> triangles;
  const auto lattice_row = [&](int i) { return i * (i + 1) / 2; };

  for (Eigen::Index t = 0; t < mesh.triangles.cols(); ++t) {
    const Eigen::Matrix<int, 6, 1> six = mesh.triangles.col(t);
    Eigen::Matrix<double, 5, 6> values;
    for (int k = 0; k < 6; ++k)
      values.col(k) << mesh.nodes.col(six[k]), result.potential[six[k]],
          result.current_density.col(six[k]);
    // Rows of the lattice from corner 0 downwards.
    std::vector<int> id;
    for (int i = 0; i <= parts; ++i)
      for (int j = 0; j <= i; ++j) {
        const Lattice at{parts - i, i - j, j};
        const auto [entry, fresh] =
            number.try_emplace(names.name({six[0], six[1], six[2]}, at),
                               static_cast<int>(points.size()));
        if (fresh) {
          const double n = parts;
          const Eigen::Matrix<double, 5, 1> v =
              values * shape(at[0] / n, at[1] / n, at[2] / n);
          points.push_back({v[0], v[1], v[2], v[3], v[4]});
        }
        id.push_back(entry->second);
      }
    const auto at = [&](int i, int j) {
      return id[static_cast<std::size_t>(lattice_row(i) + j)];
    };
    for (int i = 0; i < parts; ++i)
      for (int j = 0; j <= i; ++j) {
        triangles.emplace_back(at(i, j), at(i + 1, j), at(i + 1, j + 1));
        if (j < i)
          triangles.emplace_back(at(i, j), at(i + 1, j + 1), at(i, j + 1));
      }
  }

  FineMesh fine;
  const auto n = static_cast<Eigen::Index>(points.size());
  fine.nodes.resize(2, n);
  fine.potential.resize(n);
  fine.current_density.resize(2, n);
  for (Eigen::Index k = 0; k < n; ++k) {
    const auto& p = points[static_cast<std::size_t>(k)];
    fine.nodes.col(k) << p[0], p[1];
    fine.potential[k] = p[2];
    fine.current_density.col(k) << p[3], p[4];
  }
  fine.triangles.resize(3, static_cast<Eigen::Index>(triangles.size()));
  for (std::size_t k = 0; k < triangles.size(); ++k)
    fine.triangles.col(static_cast<Eigen::Index>(k)) = triangles[k];
  return fine;
}

}  // namespace thinspot::viz
