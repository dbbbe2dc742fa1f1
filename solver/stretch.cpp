#include "solver/stretch.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

double wrapped(double arc, double length) {
  arc = std::fmod(arc, length);
  return arc < 0 ? arc + length : arc;
}

Stretches make_set(const Stretches& pieces, double length) {
  // Cut at arc 0, sort, merge, and join again what touches over arc 0.
  const double touch = 1e-12 * length;
  Stretches cut;
  for (const Stretch& s : pieces) {
    const double size = s.to - s.from;
    if (size >= length - touch) return {{0, length}};
    if (size <= 0) continue;
    const double from = wrapped(s.from, length);
    if (from + size <= length) {
      cut.push_back({from, from + size});
    } else {
      cut.push_back({from, length});
      cut.push_back({0, from + size - length});
    }
  }
  std::sort(cut.begin(), cut.end(),
            [](const Stretch& a, const Stretch& b) { return a.from < b.from; });
  Stretches set;
  for (const Stretch& s : cut) {
    if (!set.empty() && s.from <= set.back().to + touch)
      set.back().to = std::max(set.back().to, s.to);
    else
      set.push_back(s);
  }
  if (set.size() > 1 && set.front().from <= touch &&
      set.back().to >= length - touch) {
    set.back().to = length + set.front().to;
    set.erase(set.begin());
  }
  return set;
}

Stretches complement(const Stretches& set, double length) {
  if (set.empty()) return {{0, length}};
  Stretches rest;
  for (std::size_t k = 0; k < set.size(); ++k) {
    const double from = set[k].to;
    double to = k + 1 < set.size() ? set[k + 1].from : set[0].from + length;
    if (to - from > 1e-12 * length) rest.push_back({from, to});
  }
  return make_set(rest, length);
}

Stretches common(const Stretches& a, const Stretches& b, double length) {
  // Neither in the complement of one nor in that of the other.
  Stretches outside = complement(a, length);
  const Stretches outside_b = complement(b, length);
  if (a.empty() || b.empty()) return {};
  outside.insert(outside.end(), outside_b.begin(), outside_b.end());
  const Stretches joined = make_set(outside, length);
  if (joined.size() == 1 && joined[0].to - joined[0].from >= length) return {};
  return complement(joined, length);
}

bool holds(const Stretches& set, double arc, double length) {
  const double here = wrapped(arc, length);
  return std::any_of(set.begin(), set.end(), [&](const Stretch& s) {
    return (s.from <= here && here <= s.to) ||
           (s.from <= here + length && here + length <= s.to);
  });
}

}  // namespace thinspot::solver
