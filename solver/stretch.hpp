#pragma once

#include <vector>

namespace thinspot::solver {

/// Piece of a closed loop by arc length [m], 0 <= from < loop's length and
/// from < to; `to` passes the loop's length where the piece runs over arc 0.
struct Stretch {
  double from = 0, to = 0;
};

/// Set of arcs on a closed loop: stretches that neither touch nor overlap.
using Stretches = std::vector<Stretch>;

/// The same place as an arc from 0 up to, but not, the loop's length.
double wrapped(double arc, double length);

/// Any pieces, from < to, made into a set; one that is longer than the loop
/// becomes the whole loop.
Stretches make_set(const Stretches& pieces, double length);

/// What the set leaves of the loop.
Stretches complement(const Stretches& set, double length);

Stretches common(const Stretches& a, const Stretches& b, double length);

bool holds(const Stretches& set, double arc, double length);

}  // namespace thinspot::solver
