#include "solver/multigrid.hpp"

namespace thinspot::solver {

namespace {

std::size_t at(int k) { return static_cast<std::size_t>(k); }

std::vector<int> held_corners(const Corners& corners,
                              const std::vector<bool>& held) {
  std::vector<int> found;
  for (std::size_t k = 0; k < held.size(); ++k) {
    const auto [a, b] = corners.of[k];
    if (held[k] && a == b) found.push_back(a);
  }
  return found;
}

/// Linear fields that are nothing where they are held.
SymmetricRows coarse_system(const BorderedRows& a, const Corners& corners,
                            const std::vector<int>& held) {
  SymmetricRows rows = on_corners(corners, a);
  std::vector<bool> is_held(at(rows.rows()), false);
  for (int corner : held) is_held[at(corner)] = true;
  rows.clear(is_held);
  return rows;
}

}  // namespace

Multigrid::Multigrid(const BorderedRows& a, const Corners& corners,
                     const std::vector<bool>& held)
    : a_(a),
      corners_(corners),
      held_(held_corners(corners, held)),
      coarse_(coarse_system(a, corners, held_)) {}

Multigrid::Room Multigrid::room() const {
  const std::size_t n = at(corners_.count);
  return {LaneVector(n), LaneVector(n), coarse_.room()};
}

Lanes Multigrid::cycle(const LaneVector& right, LaneVector& x, LaneVector& rest,
                       Room& room) const {
  sweep_forward(a_, right, x, rest);
  onto_corners(corners_, rest, room.right);
  for (int corner : held_) room.right[at(corner)].setZero();
  coarse_.cycle(room.right, room.x, room.coarse);
  add_from_corners(corners_, room.x, x);
  return sweep_back(a_, right, x, rest);
}

}  // namespace thinspot::solver
