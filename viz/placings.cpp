#include "viz/placings.hpp"

#include "mesh/digits.hpp"
#include "viz/solid_names.hpp"
#include "viz/tank_drawing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace thinspot::viz {

namespace {

using mesh::Role;

constexpr double kTouching = 2e-4;  ///< nearer than a ruler tells [m]
constexpr double kAlike = 3e-4;     ///< likewise, of two places [m]
constexpr double kLeast = 0.3 * std::numbers::pi / 180;  ///< lean to tell

const std::vector<Role> kBeside = {Role::anode, Role::thief, Role::shield};

std::string name_of(const mesh::Solid& solid) {
  const std::string name = clean_text(solid.name);
  return name.empty() ? name_with_role(solid) : name;
}

/// Where a straight way from a point meets an outline first, as a distance.
std::optional<double> way_to(const mesh::Outline& outline, const Point& from,
                             const Point& way) {
  std::optional<double> best;
  const Point across(-way.y(), way.x());
  for (const mesh::Loop& loop : outline.loops)
    for (const mesh::Curve& c : loop) {
      const int pieces = mesh::is_arc(c) ? 64 : 1;
      for (int k = 0; k < pieces; ++k) {
        const Point a =
            mesh::point_at(c, static_cast<double>(k) / pieces) - from;
        const Point b =
            mesh::point_at(c, static_cast<double>(k + 1) / pieces) - from;
        const double off_a = across.dot(a), off_b = across.dot(b);
        if ((off_a < 0) == (off_b < 0)) continue;
        const double share = off_a / (off_a - off_b);
        const double far = way.dot(a + share * (b - a));
        if (far > -kTouching && (!best || far < *best)) best = far;
      }
    }
  return best;
}

/// The middle of the surface's points that lie farthest this way.
Point farthest(const mesh::Outline& outline, const Point& way) {
  double most = -1e9;
  Point sum = Point::Zero();
  int count = 0;
  for (const mesh::Loop& loop : outline.loops)
    for (const mesh::Curve& c : loop)
      for (int k = 0; k <= 40; ++k) {
        const Point p = mesh::point_at(c, k / 40.0);
        const double far = way.dot(p);
        if (far > most + 1e-7) {
          most = far;
          sum = p;
          count = 1;
        } else if (far > most - 1e-7) {
          sum += p;
          ++count;
        }
      }
  return sum / count;
}

/// A solid's distance from the wall on one side.
struct ToWall {
  std::size_t solid = 0;
  Point from = Point::Zero(), way = Point::Zero();
  double length = 0;
  bool free = false;  ///< no metal between
};

std::string wall_word(const Point& way) {
  return way.x() < 0   ? "left"
         : way.x() > 0 ? "right"
         : way.y() < 0 ? "front"
                       : "back";
}

class Placer {
 public:
  explicit Placer(const Scene& scene)
      : scene_(scene),
        section_(scene.section),
        inside_(tank_inside(scene.section)),
        level_(mesh::bounding_box(section_.liquid_bounds).high.y()),
        floor_(mesh::bounding_box(section_.liquid_bounds).low.y()) {
    const std::vector<Dimension> gaps = free_distances(scene, kBeside);
    for (std::size_t k = 0, n = 0; k < section_.solids.size(); ++k)
      if (is_beside(k)) beside_.push_back({k, way_of(gaps[n++])});
  }

  std::vector<Placing> all() {
    const bool plan = section_.cut == mesh::Cut::plan;
    if (!plan) place_below_level(scene_.shown, true);
    if (!scene_.round()) {
      place_from_wall({1, 0});
      if (plan) place_from_wall({0, 1});
    }
    for (const Beside& one : beside_) {
      const bool level_gap = std::abs(one.way.y()) < 0.05;
      const bool upright_gap = std::abs(one.way.x()) < 0.05;
      if (!plan && !upright_gap) place_below_level(one.solid, false);
      if (plan && !upright_gap && !centred(one.solid, 1))
        tell_wall(one.solid, {0, 1});
      if (!scene_.round() && !level_gap && !centred(one.solid, 0) &&
          (plan || upright_gap))
        tell_wall(one.solid, {1, 0});
      tell_lean(one.solid);
    }
    return std::move(found_);
  }

 private:
  struct Beside {
    std::size_t solid = 0;
    Point way = Point::Zero();  ///< of its free distance
  };

  static Point way_of(const Dimension& d) {
    const Point way = d.to - d.from;
    return way.norm() > kTouching ? Point(way.normalized()) : Point(0, 1);
  }

  bool is_beside(std::size_t k) const {
    return std::find(kBeside.begin(), kBeside.end(),
                     section_.solids[k].spec.role) != kBeside.end();
  }

  mesh::Box box(std::size_t solid) const {
    return mesh::bounding_box(section_.solids[solid].outline);
  }

  bool centred(std::size_t solid, int axis) const {
    return std::abs(box(solid).centre()[axis] -
                    box(scene_.shown).centre()[axis]) < kAlike;
  }

  void tell(std::size_t solid, std::string words,
            std::optional<Dimension> line = {}) {
    for (const Placing& p : found_)
      if (p.solid == solid && p.words == words) return;
    found_.push_back({solid, std::move(words), std::move(line)});
  }

  /// From the liquid's surface; of what stands out of it, from the floor.
  void place_below_level(std::size_t solid, bool whole) {
    const mesh::Box b = box(solid);
    const std::string top = whole ? "" : "top ", foot = whole ? "" : "foot ";
    const double below = level_ - b.high.y(), above = b.low.y() - floor_;
    const bool shield = section_.solids[solid].spec.role == Role::shield;
    if (above < kTouching) return tell(solid, "on the floor");
    if (below > kTouching && !(shield && above < below)) {
      const double x = b.centre().x();
      // The part has its line already.
      return tell(
          solid, top + millimetres(below) + " below the surface",
          whole ? std::optional<Dimension>()
                : Dimension{{x, b.high.y()}, {x, level_}, millimetres(below)});
    }
    const double x = b.centre().x();
    if (below > kTouching || !whole)
      return tell(solid, foot + millimetres(above) + " above the floor",
                  Dimension{{x, floor_}, {x, b.low.y()}, millimetres(above)});
    tell(solid, "dipped " + millimetres(level_ - b.low.y()));
  }

  /// Towards either end of an axis, as far as a wall is there.
  std::vector<ToWall> walls_of(std::size_t solid, const Point& axis) const {
    std::vector<ToWall> walls;
    for (const double side : {-1.0, 1.0}) {
      const Point way = side * axis;
      const mesh::Outline& outline = section_.solids[solid].outline;
      const Point from = farthest(outline, way);
      const auto length = way_to(inside_, from, way);
      if (!length) continue;
      walls.push_back({solid, from, way, std::max(0.0, *length),
                       is_free(solid, from, way, *length)});
    }
    return walls;
  }

  bool is_free(std::size_t solid, const Point& from, const Point& way,
               double length) const {
    for (std::size_t k = 0; k < section_.solids.size(); ++k) {
      if (k == solid) continue;
      const auto far = way_to(section_.solids[k].outline, from, way);
      if (far && *far < length - kTouching) return false;
    }
    return true;
  }

  void tell(const ToWall& wall) {
    const std::string which = "the " + wall_word(wall.way) + " wall";
    if (wall.length < kTouching) return tell(wall.solid, "against " + which);
    tell(wall.solid, millimetres(wall.length) + " from " + which,
         Dimension{wall.from, wall.from + wall.length * wall.way,
                   millimetres(wall.length)});
  }

  /// The nearest wall that the ruler reaches.
  void tell_wall(std::size_t solid, const Point& axis) {
    const std::vector<ToWall> walls = walls_of(solid, axis);
    if (walls.empty() || fills(walls)) return;
    tell(*std::min_element(walls.begin(), walls.end(), before));
  }

  /// From wall to wall: nothing to measure.
  static bool fills(const std::vector<ToWall>& walls) {
    return walls.size() == 2 && walls[0].length < kTouching &&
           walls[1].length < kTouching;
  }

  static bool before(const ToWall& a, const ToWall& b) {
    return a.free != b.free ? a.free : a.length < b.length - kAlike;
  }

  /// The part's, or that of what stands beside it in the way.
  void place_from_wall(const Point& axis) {
    std::vector<ToWall> walls = walls_of(scene_.shown, axis);
    if (fills(walls)) return;
    const bool any = std::any_of(walls.begin(), walls.end(),
                                 [](const ToWall& w) { return w.free; });
    if (!any)
      for (const Beside& one : beside_)
        if (std::abs(axis.dot(one.way)) > 0.95 ||
            centred(one.solid, axis.x() > 0 ? 0 : 1))
          for (const ToWall& wall : walls_of(one.solid, axis))
            walls.push_back(wall);
    if (walls.empty()) return;
    tell(*std::min_element(walls.begin(), walls.end(), before));
  }

  void tell_lean(std::size_t solid) {
    const Lean lean = lean_of(section_.solids[solid].spec, section_.cut);
    if (lean.angle == 0) return;
    const bool plan = section_.cut == mesh::Cut::plan;
    const bool left = lean.angle > 0;  // of an upright one the upper end
    const char* const end = lean.level ? "right end "
                            : plan     ? "back end "
                                       : "top ";
    const char* const where = !lean.level
                                  ? (left ? "to the left" : "to the right")
                              : plan ? (left ? "to the back" : "to the front")
                                     : (left ? "up" : "down");
    tell(solid, "tilted " + degrees(lean) + ", " + end + where);
  }

  const Scene& scene_;
  const mesh::Section& section_;
  mesh::Outline inside_;
  double level_, floor_;
  std::vector<Beside> beside_;
  std::vector<Placing> found_;
};

}  // namespace

std::string degrees(const Lean& lean) {
  return digits(std::abs(lean.angle) * 180 / std::numbers::pi) + "\u00B0";
}

Lean lean_of(const mesh::Solid& solid, mesh::Cut cut) {
  if (solid.shape == "round") return {};
  const Point size =
      mesh::bounding_box(mesh::outline_at_origin(solid, cut)).size();
  if (std::abs(size.x() - size.y()) < kAlike) return {};
  constexpr double half = std::numbers::pi / 2;
  // Of the long side, which stands upright at turn 0 or lies.
  Lean lean;
  lean.angle = std::remainder(solid.turn + (size.x() > size.y() ? half : 0),
                              std::numbers::pi);
  lean.level = std::abs(lean.angle) > half / 2;
  if (lean.level) lean.angle -= std::copysign(half, lean.angle);
  if (std::abs(lean.angle) < kLeast) lean.angle = 0;
  return lean;
}

std::vector<Placing> placings(const Scene& scene) {
  return Placer(scene).all();
}

std::string in_words(const Scene& scene, const std::vector<Placing>& all) {
  // What is alike of several is said once; then what is said of the same ones
  // stands together.
  struct Group {
    std::vector<std::size_t> solids;
    std::string words;
  };
  std::vector<Group> groups;
  for (const Placing& p : all) {
    const auto same =
        std::find_if(groups.begin(), groups.end(),
                     [&](const Group& g) { return g.words == p.words; });
    if (same == groups.end())
      groups.push_back({{p.solid}, p.words});
    else
      same->solids.push_back(p.solid);
  }
  for (std::size_t k = 0; k < groups.size(); ++k)
    for (std::size_t n = k + 1; n < groups.size();) {
      if (groups[n].solids != groups[k].solids) {
        ++n;
        continue;
      }
      groups[k].words += ", " + groups[n].words;
      groups.erase(groups.begin() + static_cast<std::ptrdiff_t>(n));
    }
  std::string text;
  for (const Group& g : groups) {
    text += text.empty() ? "" : "; ";
    for (std::size_t k = 0; k < g.solids.size(); ++k)
      text += (k == 0                     ? ""
               : k + 1 == g.solids.size() ? " and "
                                          : ", ") +
              name_of(scene.section.solids[g.solids[k]].spec);
    text += ": " + g.words;
  }
  return text;
}

}  // namespace thinspot::viz
