#include "solver/face_stretch.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <vector>

namespace thinspot::solver {

namespace {

using mesh::Box;
using mesh::Curve;
using mesh::Loop;
using mesh::Outline;
using mesh::Point;
using mesh::Section;
using Kind = StretchEnd::Kind;

/// Solids that touch count as covering: above mesh's own limit for touching,
/// 1e-7 of the tank, and below the smallest feature that a drawing may have.
constexpr double kStandOff = 3e-7;
/// Steps of a walk along the surface, as shares of the outline's size: what
/// covers less than one of them may be stepped over.
constexpr double kStep = 0.005;

struct Cover {
  Kind kind = Kind::wall;
  std::string name;
};

bool inside(const Box& box, const Point& p) {
  return (p.array() >= box.low.array()).all() &&
         (p.array() <= box.high.array()).all();
}

/// Tells what lies against a solid's surface where it is not the liquid.
class Surroundings {
 public:
  Surroundings(const Section& section, const Outline& self)
      : section_(section) {
    for (const mesh::PlacedSolid& s : section.solids)
      if (&s.outline != &self)
        others_.push_back({&s, mesh::bounding_box(s.outline)});
    const Box tank = mesh::bounding_box(section.liquid_bounds);
    stand_off_ = kStandOff * tank.size().maxCoeff();
    level_ = section.cut == mesh::Cut::plan
                 ? std::numeric_limits<double>::infinity()
                 : tank.high.y();
  }

  std::optional<Cover> over(const Curve& c, double t) const {
    const Point p =
        mesh::point_at(c, t) + stand_off_ * mesh::outward_normal(c, t);
    if (p.y() > level_) return Cover{Kind::liquid_surface, ""};
    for (const Other& other : others_)
      if (inside(other.box, p) && mesh::contains(other.solid->outline, p))
        return Cover{Kind::solid, named(other.solid->spec)};
    if (!mesh::contains(section_.liquid_bounds, p))
      return Cover{Kind::wall, ""};
    return std::nullopt;
  }

 private:
  struct Other {
    const mesh::PlacedSolid* solid;
    Box box;
  };

  /// "clip top": its role goes with the name unless the name says it.
  static std::string named(const mesh::Solid& solid) {
    const char* role = "";
    switch (solid.role) {
      case mesh::Role::part: role = "part"; break;
      case mesh::Role::clip: role = "clip"; break;
      case mesh::Role::anode: role = "anode"; break;
      case mesh::Role::thief: role = "thief"; break;
      case mesh::Role::shield: role = "shield"; break;
      case mesh::Role::floating: role = "floating"; break;
    }
    if (solid.name.find(role) != std::string::npos) return solid.name;
    return std::string(role) + " " + solid.name;
  }

  const Section& section_;
  std::vector<Other> others_;
  double stand_off_ = 0;
  double level_ = 0;
};

void take_in(Box& box, const Point& p) {
  box.low = box.low.cwiseMin(p);
  box.high = box.high.cwiseMax(p);
}

/// Goes along the loop from a place until its face ends or is covered.
class Walk {
 public:
  Walk(const Surroundings& around, const Loop& loop, double step, Box& box)
      : around_(around), loop_(loop), step_(step), box_(box) {}

  /// @param way  +1 in the sense of the outline, -1 against it
  /// @returns nothing where the walk comes back to its start
  std::optional<StretchEnd> to_end(int curve, double t, int way) const {
    const auto n = static_cast<int>(loop_.size());
    const Curve& start = at(curve);
    double distance = 0;
    for (int k = 0; k <= n; ++k) {
      const Curve& here = at(curve + way * k);
      if (k > 0) {
        if (here.face != start.face)
          return StretchEnd{distance,
                            here.face == "axis" ? Kind::axis : Kind::face,
                            here.face};
        if (here.masked != start.masked)
          return StretchEnd{distance, Kind::lacquer, ""};
      }
      const double goal = way > 0 ? 1 : 0;
      const double from = k == 0 ? t : 1 - goal;
      const auto end = along(here, from, goal, distance);
      if (end) return end;
      distance += std::abs(goal - from) * mesh::length(here);
    }
    return std::nullopt;
  }

 private:
  const Curve& at(int k) const {
    const auto n = static_cast<int>(loop_.size());
    return loop_[static_cast<std::size_t>(((k % n) + n) % n)];
  }

  std::optional<StretchEnd> along(const Curve& c, double from, double goal,
                                  double distance) const {
    const double size = std::abs(goal - from) * mesh::length(c);
    const int steps = std::clamp(static_cast<int>(size / step_), 4, 400);
    take_in(box_, mesh::point_at(c, from));
    double open = from;
    for (int k = 0; k < steps; ++k) {
      // Middles of the steps: at a curve's ends corners would count.
      const double t = from + (goal - from) * (k + 0.5) / steps;
      const auto cover = around_.over(c, t);
      if (cover) {
        const double end = boundary(c, open, t);
        take_in(box_, mesh::point_at(c, end));
        return StretchEnd{distance + std::abs(end - from) * mesh::length(c),
                          cover->kind, cover->name};
      }
      take_in(box_, mesh::point_at(c, t));
      open = t;
    }
    take_in(box_, mesh::point_at(c, goal));
    return std::nullopt;
  }

  double boundary(const Curve& c, double open, double covered) const {
    for (int k = 0; k < 30; ++k) {
      const double middle = 0.5 * (open + covered);
      (around_.over(c, middle) ? covered : open) = middle;
    }
    return open;
  }

  const Surroundings& around_;
  const Loop& loop_;
  double step_;
  Box& box_;
};

}  // namespace

FaceStretch face_stretch(const Section& section, const Outline& outline,
                         int loop, int curve, double t) {
  const Loop& chain = outline.loops[static_cast<std::size_t>(loop)];
  const Surroundings around(section, outline);
  const Point here = mesh::point_at(chain[static_cast<std::size_t>(curve)], t);
  FaceStretch stretch;
  stretch.box = {here, here};
  const double step = kStep * mesh::bounding_box({{chain}}).size().maxCoeff();
  const Walk walk(around, chain, step, stretch.box);
  const auto before = walk.to_end(curve, t, -1);
  const auto after = walk.to_end(curve, t, +1);
  if (!before || !after) {
    stretch.whole_loop = true;
    return stretch;
  }
  stretch.before = *before;
  stretch.after = *after;
  return stretch;
}

}  // namespace thinspot::solver
