#include "mesh/refine_edges.hpp"

#include <stdexcept>
#include <string>

namespace thinspot::mesh {

HalvedEdges all_edges(const Mesh& mesh) {
  HalvedEdges halved(mesh);
  for (Eigen::Index t = 0; t < mesh.triangles.cols(); ++t)
    for (Eigen::Index k = 3; k < 6; ++k) halved.add(mesh.triangles(k, t));
  return halved;
}

HalvedEdges edges_to_halve(const Mesh& mesh, std::span<const int> marked) {
  const auto triangles = static_cast<int>(mesh.triangles.cols());
  // The triangles on both sides of an edge as one number, by middle node: from
  // either of the two it gives the other (0 beside the boundary).
  std::vector<int> both(static_cast<std::size_t>(mesh.nodes.cols()), 0);
  for (int t = 0; t < triangles; ++t)
    for (Eigen::Index k = 3; k < 6; ++k)
      both[static_cast<std::size_t>(mesh.triangles(k, t))] ^= t + 1;

  HalvedEdges halved(mesh);
  std::vector<int> to_look_at;
  const auto halve = [&](int middle, int triangle) {
    if (!halved.add(middle)) return;
    const int beyond =
        (both[static_cast<std::size_t>(middle)] ^ (triangle + 1)) - 1;
    if (beyond >= 0) to_look_at.push_back(beyond);
  };
  for (int t : marked) {
    if (t < 0 || t >= triangles)
      throw std::out_of_range("no triangle " + std::to_string(t) +
                              " in the mesh to refine");
    for (Eigen::Index k = 3; k < 6; ++k) halve(mesh.triangles(k, t), t);
  }
  // An edge is halved once and brings one triangle: all of this is linear.
  while (!to_look_at.empty()) {
    const int t = to_look_at.back();
    to_look_at.pop_back();
    halve(mesh.triangles(3, t), t);
  }
  return halved;
}

}  // namespace thinspot::mesh
