#include "solver/pockets.hpp"

#include <algorithm>
#include <numbers>
#include <numeric>

namespace thinspot::solver {

namespace {

using mesh::Curve;
using mesh::Loop;
using mesh::Outline;
using mesh::Point;

/// Levels are looked at this share of the body's size below a lip, where the
/// line that cuts the outline meets no flat rim along its length.
constexpr double kBelowLip = 1e-9;

/// The loop in pieces along each of which the height only rises or falls.
Loop monotone(const Loop& loop) {
  Loop pieces;
  for (const Curve& c : loop) {
    std::vector<double> cuts{0, 1};
    if (mesh::is_arc(c))
      for (double side : {-1.0, 1.0}) {
        const Point top = mesh::centre(c) + Point(0, side * mesh::radius(c));
        const mesh::Foot foot = mesh::nearest(c, top);
        if (foot.distance < 1e-9 * mesh::radius(c) && foot.t > 1e-9 &&
            foot.t < 1 - 1e-9)
          cuts.push_back(foot.t);
      }
    std::sort(cuts.begin(), cuts.end());
    for (std::size_t k = 0; k + 1 < cuts.size(); ++k)
      pieces.push_back(mesh::piece_of(c, cuts[k], cuts[k + 1]));
  }
  return pieces;
}

/// Fraction of a monotone piece at which it has that height.
double crossing(const Curve& c, double height) {
  if (!mesh::is_arc(c)) return (height - c.from.y()) / (c.to.y() - c.from.y());
  double below = 0, above = 1;
  if (c.from.y() > c.to.y()) std::swap(below, above);
  for (int k = 0; k < 60; ++k) {
    const double middle = 0.5 * (below + above);
    (mesh::point_at(c, middle).y() < height ? below : above) = middle;
  }
  return 0.5 * (below + above);
}

/// What of the loop lies below a level, from where it dips to where it rises
/// again. Walked with the solid on the left.
struct Run {
  Loop pieces;
  std::vector<std::size_t> vertices;  ///< of the loop, below the level
};

class Flood {
 public:
  explicit Flood(const Loop& loop) : pieces_(monotone(loop)) {
    for (const Curve& c : pieces_) height_.push_back(c.from.y());
    taken_.resize(pieces_.size(), false);
    const mesh::Box box = mesh::bounding_box({{pieces_}});
    step_ = kBelowLip * box.size().maxCoeff();
  }

  /// Bounded pools at the level of each lip, the highest lip first.
  std::vector<Pocket> pools() {
    std::vector<Pocket> found;
    for (double lip : lips())
      for (Pocket& p : pools_at(lip)) found.push_back(std::move(p));
    std::sort(found.begin(), found.end(), [](const Pocket& a, const Pocket& b) {
      return a.deepest.x() < b.deepest.x();
    });
    return found;
  }

 private:
  double after(std::size_t k) const {
    return height_[(k + 1) % height_.size()];
  }

  std::vector<double> lips() const {
    std::vector<double> heights;
    for (std::size_t k = 0; k < height_.size(); ++k) {
      const double before = height_[(k + height_.size() - 1) % height_.size()];
      if (height_[k] >= before && height_[k] >= after(k))
        heights.push_back(height_[k]);
    }
    std::sort(heights.rbegin(), heights.rend());
    heights.erase(std::unique(heights.begin(), heights.end()), heights.end());
    return heights;
  }

  std::vector<Run> runs_below(double level) const {
    const std::size_t n = pieces_.size();
    std::vector<Run> runs;
    std::size_t first = 0;  // a piece that begins above the level
    while (first < n && height_[first] < level) ++first;
    if (first == n) return runs;
    for (std::size_t j = 0; j < n; ++j) {
      const std::size_t k = (first + j) % n;
      const bool from = height_[k] < level, to = after(k) < level;
      const Curve& c = pieces_[k];
      if (from) runs.back().vertices.push_back(k);
      if (from && to) runs.back().pieces.push_back(c);
      if (from == to) continue;
      const double t = crossing(c, level);
      if (to) {
        runs.emplace_back();
        runs.back().pieces.push_back(mesh::piece_of(c, t, 1));
      } else {
        runs.back().pieces.push_back(mesh::piece_of(c, 0, t));
      }
    }
    return runs;
  }

  std::vector<Pocket> pools_at(double lip) {
    const double level = lip - step_;
    const std::vector<Run> runs = runs_below(level);
    struct End {
      double x;
      std::size_t run;
      bool rising;
    };
    std::vector<End> ends;
    for (std::size_t r = 0; r < runs.size(); ++r) {
      ends.push_back({runs[r].pieces.front().from.x(), r, false});
      ends.push_back({runs[r].pieces.back().to.x(), r, true});
    }
    std::sort(ends.begin(), ends.end(),
              [](const End& a, const End& b) { return a.x < b.x; });
    // Runs that border on the same stretch of the level belong to the same
    // region of liquid; what borders on the stretches that go on for ever is
    // outside.
    const std::size_t outside = runs.size();
    std::vector<std::size_t> region(runs.size() + 1);
    std::iota(region.begin(), region.end(), std::size_t{0});
    const auto join = [&](std::size_t a, std::size_t b) {
      const std::size_t from = region[a], to = region[b];
      std::replace(region.begin(), region.end(), from, to);
    };
    if (ends.empty()) return {};
    join(ends.front().run, outside);
    join(ends.back().run, outside);
    for (std::size_t e = 1; e + 1 < ends.size(); e += 2) {
      // Solid and liquid take turns along a line; where an outline touches
      // itself they seem not to, and no pool is claimed.
      if (!ends[e].rising || ends[e + 1].rising) return {};
      join(ends[e].run, ends[e + 1].run);
    }
    std::vector<Pocket> pools;
    for (std::size_t r = 0; r < runs.size(); ++r) {
      if (region[r] != r || region[outside] == r) continue;
      std::vector<const Run*> members;
      for (std::size_t m = 0; m < runs.size(); ++m)
        if (region[m] == r) members.push_back(&runs[m]);
      Loop bound;
      double mouth = 0;
      for (const Run* m : members)
        bound.insert(bound.end(), m->pieces.begin(), m->pieces.end());
      for (std::size_t e = 1; e + 1 < ends.size(); e += 2)
        if (region[ends[e].run] == r) {
          bound.push_back({{ends[e].x, level}, {ends[e + 1].x, level}, 0, ""});
          mouth += ends[e + 1].x - ends[e].x;
        }
      if (auto pool = described(members, bound); pool.depth > 0) {
        pool.level = lip;
        pool.mouth = mouth;
        pools.push_back(pool);
      }
    }
    return pools;
  }

  /// Empty where the region is within a pool that is known already.
  Pocket described(const std::vector<const Run*>& members, const Loop& bound) {
    std::size_t lowest = members.front()->vertices.front();
    for (const Run* m : members)
      for (std::size_t v : m->vertices)
        if (height_[v] < height_[lowest]) lowest = v;
    if (taken_[lowest]) return {};
    for (const Run* m : members)
      for (std::size_t v : m->vertices) taken_[v] = true;
    Pocket p;
    p.deepest = pieces_[lowest].from;
    p.face = pieces_[lowest].face;
    const mesh::Box box = mesh::bounding_box({{bound}});
    p.depth = box.size().y();
    p.width = box.size().x();
    // Runs keep the solid on their left, so the pool is walked clockwise.
    p.area = -mesh::area({{bound}});
    return p;
  }

  Loop pieces_;
  std::vector<double> height_;  ///< of each piece's beginning
  std::vector<bool> taken_;     ///< vertices within a pool found
  double step_ = 0;
};

}  // namespace

std::vector<Pocket> pockets(const Outline& outline) {
  std::vector<Pocket> all;
  for (const Loop& loop : outline.loops) {
    if (mesh::area({{loop}}) <= 0) continue;
    for (Pocket& p : Flood(loop).pools()) all.push_back(std::move(p));
  }
  return all;
}

std::vector<Pocket> pockets_below(const Outline& outline) {
  std::vector<Pocket> all =
      pockets(mesh::moved(outline, std::numbers::pi, {0, 0}));
  std::reverse(all.begin(), all.end());
  for (Pocket& p : all) {
    p.level = -p.level;
    p.deepest = -p.deepest;
  }
  return all;
}

}  // namespace thinspot::solver
