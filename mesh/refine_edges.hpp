#pragma once

#include "mesh/mesh.hpp"

#include <cstdint>
#include <span>
#include <vector>

namespace thinspot::mesh {

/// The edges of a mesh that are to be halved, and the nodes in the middle of
/// their halves. An edge is known by its own middle node, so that one plain
/// array does.
class HalvedEdges {
 public:
  explicit HalvedEdges(const Mesh& mesh)
      : halves_(static_cast<std::size_t>(mesh.nodes.cols()), kStaysWhole) {}

  /// @returns false where the edge was among them before.
  bool add(int middle) {
    int& halves = halves_[static_cast<std::size_t>(middle)];
    if (halves != kStaysWhole) return false;
    halves = kNotGiven;
    ++count_;
    return true;
  }
  bool operator[](int middle) const {
    return halves_[static_cast<std::size_t>(middle)] != kStaysWhole;
  }
  std::int64_t count() const { return count_; }

  /// Bit k is set where the edge from corner k of the triangle to the next is
  /// halved.
  unsigned pattern(const Mesh& mesh, Eigen::Index triangle) const {
    unsigned bits = 0;
    for (int k = 0; k < 3; ++k)
      if ((*this)[mesh.triangles(3 + k, triangle)]) bits |= 1u << k;
    return bits;
  }

  bool has_halves(int middle) const {
    return halves_[static_cast<std::size_t>(middle)] > 0;
  }
  /// Gives the halves the nodes `first` (beside the end that has the smaller
  /// number) and `first` + 1.
  void give_halves(int middle, int first) {
    halves_[static_cast<std::size_t>(middle)] = first;
  }
  /// The node in the middle of the half beside `end`.
  int half_beside(int end, int other_end, int middle) const {
    return halves_[static_cast<std::size_t>(middle)] +
           (end < other_end ? 0 : 1);
  }

 private:
  // New nodes come after old ones, so no half has the number 0.
  static constexpr int kStaysWhole = -1, kNotGiven = 0;
  std::vector<int> halves_;  ///< by middle node
  std::int64_t count_ = 0;
};

HalvedEdges all_edges(const Mesh& mesh);

/// All edges of the marked triangles, and then the first edge of every triangle
/// that has another one halved, until there is none.
/// @throws std::out_of_range where a marked index is none of a triangle.
HalvedEdges edges_to_halve(const Mesh& mesh, std::span<const int> marked);

}  // namespace thinspot::mesh
