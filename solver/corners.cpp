#include "solver/corners.hpp"

#include <algorithm>

namespace thinspot::solver {

namespace {

std::size_t at(int k) { return static_cast<std::size_t>(k); }

}  // namespace

void add_from_corners(const Corners& corners, const LaneVector& of_corners,
                      LaneVector& x) {
  for (std::size_t k = 0; k < x.size(); ++k) {
    const auto [a, b] = corners.of[k];
    x[k] += 0.5 * (of_corners[at(a)] + of_corners[at(b)]);
  }
}

void onto_corners(const Corners& corners, const LaneVector& x,
                  LaneVector& of_corners) {
  std::fill(of_corners.begin(), of_corners.end(), Lanes::Zero());
  for (std::size_t k = 0; k < x.size(); ++k) {
    const auto [a, b] = corners.of[k];
    const Lanes half = 0.5 * x[k];
    of_corners[at(a)] += half;
    of_corners[at(b)] += half;
  }
}

SymmetricRows on_corners(const Corners& corners, const BorderedRows& a) {
  // Corners of one triangle are the ends of an edge, and that has a node.
  SymmetricRows coarse(corners.count, [&](auto use) {
    for (const auto& [one, other] : corners.of)
      if (one != other) use(one, other);
  });
  a.ascending([&](int i, const SymmetricRows& rows) {
    const auto [a0, a1] = corners.of[at(i)];
    const double d = rows.diagonal(i);
    if (a0 == a1) {
      coarse.add(a0, a0, d);
    } else {
      coarse.add(a0, a0, 0.25 * d);
      coarse.add(a1, a1, 0.25 * d);
      coarse.add(a0, a1, 0.25 * d);
    }
    rows.right_of_diagonal(i, [&, a0 = a0, a1 = a1](int j, double v) {
      if (v == 0) return;
      const auto [b0, b1] = corners.of[at(j)];
      // Once for (i, j), once for (j, i): on the diagonal both fall together.
      const auto add = [&](int p, int q, double w) {
        coarse.add(p, q, p == q ? 2 * w : w);
      };
      if (a0 == a1 && b0 == b1) {
        add(a0, b0, v);
      } else if (a0 == a1) {
        add(a0, b0, 0.5 * v);
        add(a0, b1, 0.5 * v);
      } else if (b0 == b1) {
        add(a0, b0, 0.5 * v);
        add(a1, b0, 0.5 * v);
      } else {
        for (int p : {a0, a1})
          for (int q : {b0, b1}) add(p, q, 0.25 * v);
      }
    });
  });
  return coarse;
}

}  // namespace thinspot::solver
