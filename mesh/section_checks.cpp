#include "mesh/section_checks.hpp"

#include "mesh/crossing.hpp"
#include "mesh/millimetres.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::mesh {

namespace {

std::string place_text(const Box& box) {
  return fmt::format("x {} .. {}, y {} .. {}", in_mm(box.low.x()),
                     in_mm(box.high.x()), in_mm(box.low.y()),
                     in_mm(box.high.y()));
}

/// Calls visit(point) along an outline until it returns true.
template <class Visit>
bool any_point(const Outline& outline, Visit visit) {
  for (const Loop& loop : outline.loops)
    for (const Curve& c : loop)
      for (int k = 0; k < 16; ++k)
        if (visit(point_at(c, (k + 0.5) / 16))) return true;
  return false;
}

bool through_wall(const PlacedSolid& placed, const Section& section,
                  double touch) {
  // A tank drawn by hand has slanted walls that electrodes stand flush with:
  // what reaches into them does not count.
  if (section.tank.shape == Tank::Shape::outline) return false;
  const Box box = bounding_box(placed.outline);
  const Box liquid = bounding_box(section.liquid_bounds);
  const double left =
      section.cut == Cut::axisymmetric ? -liquid.high.x() : liquid.low.x();
  if (box.low.x() < left - touch || box.high.x() > liquid.high.x() + touch ||
      box.low.y() < liquid.low.y() - touch)
    return true;
  if (section.cut != Cut::plan) return false;
  if (box.high.y() > liquid.high.y() + touch) return true;
  if (section.tank.shape != Tank::Shape::round) return false;
  const double r = section.tank.width / 2;
  return any_point(placed.outline, [&](const Point& p) {
    return (p - Point(r, r)).norm() > r + touch;
  });
}

bool reaches_liquid(const PlacedSolid& placed, const Section& section,
                    double touch) {
  const Box box = bounding_box(placed.outline);
  const Box liquid = bounding_box(section.liquid_bounds);
  if (box.low.y() >= liquid.high.y() - touch) return false;
  if (section.tank.shape != Tank::Shape::outline) return true;
  return any_point(placed.outline, [&](const Point& p) {
    return contains(section.liquid_bounds, p);
  });
}

/// Which metal a solid is electrically part of.
enum class Rail { minus, plus, own, none };

Rail rail_of(Role role) {
  switch (role) {
    case Role::part:
    case Role::clip: return Rail::minus;
    case Role::anode: return Rail::plus;
    case Role::thief:
    case Role::floating: return Rail::own;
    case Role::shield: return Rail::none;
  }
  return Rail::none;
}

/// What two solids that meet would be, and how to mend it.
Problem meeting(const PlacedSolid& a, const PlacedSolid& b, bool overlapping) {
  const std::string both = a.spec.key + " and " + b.spec.key;
  const std::string meet = overlapping ? " overlap" : " touch";
  for (const auto& [one, other] : {std::pair(&a, &b), std::pair(&b, &a)}) {
    if (one->spec.role == Role::floating)
      return {one->spec.key,
              both + meet + ": metal that touches other metal does not float",
              "leave a gap, or draw both as one solid"};
    if (one->spec.role == Role::thief && other->spec.role != Role::anode)
      return {one->spec.key, both + meet + ": a thief has a lead of its own",
              "leave a gap, or make it a clip"};
  }
  return {b.spec.key, both + meet + ": a short circuit",
          "leave a gap between them; they lie at " +
              place_text(bounding_box(a.outline)) + " and " +
              place_text(bounding_box(b.outline))};
}

}  // namespace

double extent(const Outline& bounds) {
  return bounding_box(bounds).size().maxCoeff();
}

bool boxes_apart(const PlacedSolid& a, const PlacedSolid& b, double touch) {
  const Box p = bounding_box(a.outline), q = bounding_box(b.outline);
  return (p.low.array() > q.high.array() + touch).any() ||
         (q.low.array() > p.high.array() + touch).any();
}

void check_place(const PlacedSolid& placed, const Section& section,
                 std::vector<Problem>& problems) {
  const Box box = bounding_box(placed.outline);
  const Box liquid = bounding_box(section.liquid_bounds);
  const double touch = kTouch * extent(section.liquid_bounds);
  const std::string& key = placed.spec.key;
  const bool axisymmetric = section.cut == Cut::axisymmetric;
  if (axisymmetric && box.low.x() < -touch) {
    if (std::abs(box.centre().x()) > touch) {
      problems.push_back({key + ".at",
                          "crosses the axis without being centred on it",
                          "at = [\"0 mm\", …], or wholly at one side as a "
                          "ring"});
      return;
    }
    if (!is_mirrored(placed.outline, touch)) {
      problems.push_back({key,
                          "stands on the axis but is not alike on both sides "
                          "of it",
                          "a shape that is, or beside the axis as a ring"});
      return;
    }
  }
  const std::string at = "it lies at " + place_text(box);
  if (through_wall(placed, section, touch))
    problems.push_back(
        {key, "reaches through the tank's wall or floor; " + at,
         "inside the tank, which is x " +
             in_mm(axisymmetric ? -liquid.high.x() : liquid.low.x()) + " .. " +
             in_mm(liquid.high.x()) + ", y from " + in_mm(liquid.low.y())});
  // A clip may hold the part above the liquid, a shield may stand there: they
  // do not matter then.
  else if (placed.spec.role != Role::clip && placed.spec.role != Role::shield &&
           !reaches_liquid(placed, section, touch))
    problems.push_back({key, "is wholly out of the liquid; " + at,
                        "below the level at " + in_mm(liquid.high.y())});
}

void check_features(const PlacedSolid& placed, const Section& section,
                    std::vector<Problem>& problems) {
  const double least = kSmallestFeature * extent(section.liquid_bounds);
  const Box box = bounding_box(placed.outline);
  double smallest = box.size().minCoeff();
  for (const Loop& loop : placed.outline.loops)
    for (const Curve& c : loop) smallest = std::min(smallest, length(c));
  if (smallest < least)
    problems.push_back(
        {placed.spec.key,
         "has a feature of " + in_mm(smallest) +
             ", too small for a mesh of the whole tank",
         "at least " + in_mm(least) + " (1/100,000 of the tank), or 0"});
}

void check_pair(const PlacedSolid& a, const PlacedSolid& b, double touch,
                std::vector<Problem>& problems) {
  const Rail p = rail_of(a.spec.role), q = rail_of(b.spec.role);
  if (p == Rail::none || q == Rail::none) return;
  if (boxes_apart(a, b, touch)) return;
  const bool overlapping = overlap(a.outline, b.outline, touch);
  const bool parts = a.spec.role == Role::part && b.spec.role == Role::part;
  const bool anodes = p == Rail::plus && q == Rail::plus;
  if (p == q && p != Rail::own) {
    if (overlapping && (parts || anodes))
      problems.push_back({b.spec.key, "overlaps " + a.spec.key,
                          "move one of them: they lie at " +
                              place_text(bounding_box(a.outline)) + " and " +
                              place_text(bounding_box(b.outline))});
    return;
  }
  if (overlapping || distance(a.outline, b.outline) <= touch)
    problems.push_back(meeting(a, b, overlapping));
}

}  // namespace thinspot::mesh
