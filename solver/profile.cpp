#include "solver/profile.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

namespace {

/// Integral of the quadratic through (0, a), (1/2, m), (1, b) from 0 to t.
double partial(double a, double m, double b, double t) {
  const double c1 = -3 * a + 4 * m - b, c2 = 2 * a - 4 * m + 2 * b;
  return t * (a + t * (c1 / 2 + t * c2 / 3));
}

}  // namespace

Profile::Profile(const SurfaceLoop& loop, const Eigen::VectorXd& values)
    : length_(loop.length) {
  for (const SurfaceEdge& e : loop.edges) {
    const Piece piece{
        e.from, e.to, values(e.node[0]), values(e.node[2]), values(e.node[1]),
        total_};
    total_ +=
        (e.to - e.from) * partial(piece.start, piece.middle, piece.end, 1);
    pieces_.push_back(piece);
  }
}

double Profile::up_to(double arc) const {
  // Pieces cover one turn; the first may begin before arc 0.
  if (pieces_.empty()) return 0;
  const double origin = pieces_.front().from;
  const double turns = std::floor((arc - origin) / length_);
  const double here = arc - turns * length_;
  const auto next =
      std::upper_bound(pieces_.begin(), pieces_.end(), here,
                       [](double a, const Piece& p) { return a < p.from; });
  if (next == pieces_.begin()) return turns * total_;
  const Piece& p = *(next - 1);
  const double size = p.to - p.from;
  const double t = std::clamp((here - p.from) / size, 0.0, 1.0);
  return turns * total_ + p.before +
         size * partial(p.start, p.middle, p.end, t);
}

double Profile::integral(double a, double b) const {
  return up_to(b) - up_to(a);
}

double Profile::value_at(double arc) const {
  if (pieces_.empty()) return 0;
  const double origin = pieces_.front().from;
  const double here = arc - std::floor((arc - origin) / length_) * length_;
  for (const Piece& p : pieces_) {
    if (here < p.from || here > p.to) continue;
    const double t = (here - p.from) / (p.to - p.from);
    const double c1 = -3 * p.start + 4 * p.middle - p.end;
    const double c2 = 2 * p.start - 4 * p.middle + 2 * p.end;
    return p.start + t * (c1 + t * c2);
  }
  return 0;
}

std::vector<Extreme> Profile::averages(const Stretches& where,
                                       double window) const {
  std::vector<Extreme> result;
  for (const Stretch& s : where) {
    const double size = s.to - s.from;
    if (size <= window) {
      result.push_back(
          {0.5 * (s.from + s.to), integral(s.from, s.to) / size, s.from, s.to});
      continue;
    }
    const double first = s.from + window / 2, last = s.to - window / 2;
    std::vector<double> places{first, last};
    for (const Piece& p : pieces_)
      for (double turn : {0.0, length_})
        for (int k = 0; k < 8; ++k) {
          const double arc = turn + p.from + (p.to - p.from) * k / 8;
          if (arc > first && arc < last) places.push_back(arc);
        }
    std::sort(places.begin(), places.end());
    for (double arc : places)
      result.push_back({arc,
                        integral(arc - window / 2, arc + window / 2) / window,
                        arc - window / 2, arc + window / 2});
  }
  return result;
}

}  // namespace thinspot::solver
