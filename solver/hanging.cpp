#include "solver/hanging.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

namespace {

using mesh::Curve;
using mesh::Loop;
using mesh::Outline;
using mesh::Point;

/// Where along an arc its normal leaves the range that counts as level, and
/// where it dips through the liquid's surface.
std::vector<double> cuts_of(const Curve& c, double level) {
  std::vector<double> cuts{0, 1};
  const auto add = [&](double t) {
    if (t > 1e-9 && t < 1 - 1e-9) cuts.push_back(t);
  };
  if (!mesh::is_arc(c)) {
    if ((c.from.y() - level) * (c.to.y() - level) < 0)
      add((level - c.from.y()) / (c.to.y() - c.from.y()));
  } else {
    const double r = mesh::radius(c);
    const Point m = mesh::centre(c);
    const auto add_point = [&](double x, double y) {
      const mesh::Foot foot = mesh::nearest(c, m + Point(x, y));
      if (foot.distance < 1e-9 * r) add(foot.t);
    };
    for (double side : {-1.0, 1.0}) {
      for (double up : {-1.0, 1.0})
        add_point(side * r * std::sin(kLevelAngle),
                  up * r * std::cos(kLevelAngle));
      const double y = level - m.y();
      if (std::abs(y) < r) add_point(side * std::sqrt(r * r - y * y), y);
    }
  }
  std::sort(cuts.begin(), cuts.end());
  return cuts;
}

/// A piece of a loop; counts where it is below the level and faces up (down).
struct LevelPiece {
  Curve curve;
  bool counts = false;
};

std::vector<LevelPiece> level_pieces(const Loop& loop, double way,
                                     double level) {
  std::vector<LevelPiece> pieces;
  for (const Curve& c : loop) {
    const std::vector<double> cuts = cuts_of(c, level);
    for (std::size_t k = 0; k + 1 < cuts.size(); ++k) {
      const double middle = 0.5 * (cuts[k] + cuts[k + 1]);
      const bool counts = way * mesh::outward_normal(c, middle).y() >=
                              std::cos(kLevelAngle) - 1e-9 &&
                          mesh::point_at(c, middle).y() < level;
      pieces.push_back({mesh::piece_of(c, cuts[k], cuts[k + 1]), counts});
    }
  }
  // Begin with one that does not count, so that no ledge is cut in two.
  const auto first =
      std::find_if(pieces.begin(), pieces.end(),
                   [](const LevelPiece& p) { return !p.counts; });
  std::rotate(pieces.begin(), first, pieces.end());
  return pieces;
}

/// @param way  1: facing up, -1: facing down
std::vector<Ledge> ledges(const Outline& outline, double way, double level) {
  std::vector<Ledge> found;
  for (const Loop& loop : outline.loops) {
    if (mesh::area({{loop}}) <= 0) continue;
    bool going_on = false;
    double longest = 0;
    for (const LevelPiece& p : level_pieces(loop, way, level)) {
      if (!p.counts) {
        going_on = false;
        continue;
      }
      if (!going_on) {
        found.push_back({p.curve.from, p.curve.to, 0, ""});
        longest = 0;
      }
      going_on = true;
      Ledge& ledge = found.back();
      ledge.to = p.curve.to;
      ledge.width = std::abs(ledge.to.x() - ledge.from.x());
      if (mesh::length(p.curve) > longest) {
        longest = mesh::length(p.curve);
        ledge.face = p.curve.face;
      }
    }
  }
  std::erase_if(found, [](const Ledge& l) { return l.width < kLeastLedge; });
  return found;
}

}  // namespace

Hanging read_hanging(const Outline& outline, double level) {
  Hanging h;
  // Gas goes in wherever the mouth dips; solution comes in only over a lip
  // that lies below the level.
  for (Pocket& p : pockets_below(outline)) {
    const double top = std::min(p.deepest.y(), level);
    if (top - p.level < kLeastPocket) continue;
    p.depth = top - p.level;
    h.hollows.push_back(std::move(p));
  }
  for (Pocket& p : pockets(outline))
    if (p.level <= level && p.depth >= kLeastPocket)
      h.pools.push_back(std::move(p));
  h.shelves = ledges(outline, 1, level);
  h.undersides = ledges(outline, -1, level);
  return h;
}

}  // namespace thinspot::solver
