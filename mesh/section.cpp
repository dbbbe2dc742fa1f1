#include "mesh/section.hpp"

#include "mesh/crossing.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::mesh {

namespace {

/// Everything below this share of the tank's size counts as touching.
constexpr double kTouch = 1e-7;
/// Smallest feature that a mesh of the whole tank can still resolve.
constexpr double kSmallestFeature = 1e-5;

double extent(const Outline& bounds) {
  return bounding_box(bounds).size().maxCoeff();
}

Outline rectangle_bounds(const Point& low, const Point& high,
                         const char* left_face, const char* top_face) {
  const Point lower_right(high.x(), low.y()), upper_left(low.x(), high.y());
  return {{{{low, lower_right, 0, "wall"},
            {lower_right, high, 0, "wall"},
            {high, upper_left, 0, top_face},
            {upper_left, low, 0, left_face}}}};
}

Outline liquid_bounds(Cut cut, const Tank& tank) {
  if (cut == Cut::axisymmetric)
    return rectangle_bounds({0, 0}, {tank.width / 2, tank.level}, "axis",
                            "surface");
  if (tank.shape == Tank::Shape::box)
    return cut == Cut::side
               ? rectangle_bounds({0, 0}, {tank.width, tank.level}, "wall",
                                  "surface")
               : rectangle_bounds({0, 0}, {tank.width, tank.height}, "wall",
                                  "wall");
  if (cut != Cut::plan)
    throw InputError("tank.shape",
                     "an upright section of a round tank is not "
                     "a planar problem",
                     "view = \"plan\", section = \"axisymmetric\", or a box");
  const double r = tank.width / 2;
  const Point left(0, r), right(2 * r, r);
  return {{{{left, right, 1, "wall"}, {right, left, 1, "wall"}}}};
}

/// Outline of a solid around the origin, turned as asked.
Outline turned_outline(const Solid& solid, Cut cut) {
  const ShapeKind* kind = find_shape(solid.shape);
  if (!kind)
    throw InputError("shape", "\"" + solid.shape + "\" is not a shape",
                     "one of those in docs/case_file.md");
  return moved(kind->outline(solid.sizes, cut), solid.turn, {0, 0});
}

/// Where a solid with a side and a gap stands: centred on the part, moved
/// along the side's direction until the free distance is the gap.
Point place_beside(const Outline& turned, const Solid& solid,
                   const Outline& part) {
  const Box p = bounding_box(part), s = bounding_box(turned);
  Point way = Point::Zero();
  switch (*solid.side) {
    case Side::left: way = {-1, 0}; break;
    case Side::right: way = {1, 0}; break;
    case Side::above: way = {0, 1}; break;
    case Side::below: way = {0, -1}; break;
  }
  const Point start = p.centre() - s.centre();
  const double apart = way.cwiseAbs().dot(p.size() + s.size()) / 2 + solid.gap;
  const auto free_distance = [&](double travel) {
    return distance(moved(turned, 0, start + travel * way), part);
  };
  // Boxes that far apart leave at least the gap; rounded shapes leave more,
  // and then the solid comes nearer.
  double far = apart, near = apart;
  const double enough = solid.gap * (1 + 1e-9);
  if (free_distance(far) <= enough) return start + far * way;
  const double step = way.cwiseAbs().dot(p.size() + s.size()) / 64;
  while (free_distance(near) > solid.gap) {
    near -= step;
    if (near < 0)
      throw InputError("gap", "no place at that distance beside the part",
                       "at = [x, y] instead");
  }
  for (int k = 0; k < 50; ++k) {
    const double middle = 0.5 * (near + far);
    (free_distance(middle) > solid.gap ? far : near) = middle;
  }
  return start + far * way;
}

void add(std::vector<Problem>& problems, const std::string& prefix,
         const InputError& error) {
  for (Problem p : error.problems()) {
    p.key = prefix + "." + p.key;
    problems.push_back(p);
  }
}

std::string mm(double metres) { return fmt::format("{:.4g} mm", 1e3 * metres); }

std::string place_text(const Box& box) {
  return fmt::format("x {} .. {}, y {} .. {}", mm(box.low.x()),
                     mm(box.high.x()), mm(box.low.y()), mm(box.high.y()));
}

/// Reaches through a wall, the floor, or not into the liquid at all.
void check_place(const PlacedSolid& placed, const Section& section,
                 std::vector<Problem>& problems) {
  const Box box = bounding_box(placed.outline);
  const Box liquid = bounding_box(section.liquid_bounds);
  const double touch = kTouch * extent(section.liquid_bounds);
  const std::string& key = placed.spec.key;
  const bool axisymmetric = section.cut == Cut::axisymmetric;
  if (axisymmetric && box.low.x() < -touch &&
      std::abs(box.centre().x()) > touch) {
    problems.push_back({key + ".at",
                        "crosses the axis without being centred on it",
                        "at = [\"0 mm\", …], or wholly at one side as a ring"});
    return;
  }
  const double left = axisymmetric ? -liquid.high.x() : liquid.low.x();
  bool through = box.low.x() < left - touch ||
                 box.high.x() > liquid.high.x() + touch ||
                 box.low.y() < liquid.low.y() - touch;
  if (section.cut == Cut::plan)
    through = through || box.high.y() > liquid.high.y() + touch;
  if (section.tank.shape == Tank::Shape::round && section.cut == Cut::plan) {
    const double r = section.tank.width / 2;
    for (const Loop& loop : placed.outline.loops)
      for (const Curve& c : loop)
        for (double t : {0.0, 0.25, 0.5, 0.75})
          if ((point_at(c, t) - Point(r, r)).norm() > r + touch) through = true;
  }
  const std::string at = "it lies at " + place_text(box);
  if (through)
    problems.push_back({key, "reaches through the tank's wall or floor; " + at,
                        "inside the tank, which is x " + mm(left) + " .. " +
                            mm(liquid.high.x()) + ", y from " +
                            mm(liquid.low.y())});
  else if (box.low.y() >= liquid.high.y() - touch)
    problems.push_back({key, "is wholly out of the liquid; " + at,
                        "below the level at " + mm(liquid.high.y())});
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
         "has a feature of " + mm(smallest) +
             ", too small for a mesh of the whole tank",
         "at least " + mm(least) + " (1/100,000 of the tank), or 0"});
}

bool at_anode_potential(Role role) { return role == Role::anode; }

void check_pair(const PlacedSolid& a, const PlacedSolid& b, double touch,
                std::vector<Problem>& problems) {
  const std::string both = a.spec.key + " and " + b.spec.key;
  if (overlap(a.outline, b.outline, touch)) {
    problems.push_back({b.spec.key, "overlaps " + a.spec.key,
                        "move one of them: they lie at " +
                            place_text(bounding_box(a.outline)) + " and " +
                            place_text(bounding_box(b.outline))});
    return;
  }
  const bool metals = is_electrode(a.spec.role) && is_electrode(b.spec.role);
  if (!metals ||
      at_anode_potential(a.spec.role) == at_anode_potential(b.spec.role))
    return;
  const Box p = bounding_box(a.outline), q = bounding_box(b.outline);
  const bool apart = (p.low.array() > q.high.array() + touch).any() ||
                     (q.low.array() > p.high.array() + touch).any();
  if (!apart && distance(a.outline, b.outline) <= touch)
    problems.push_back({b.spec.key, both + " touch: a short circuit",
                        "leave a gap between them"});
}

const PlacedSolid* find_part(const Section& section) {
  for (const PlacedSolid& s : section.solids)
    if (s.spec.role == Role::part) return &s;
  return nullptr;
}

PlacedSolid place(const Solid& solid, const Section& section) {
  const Outline turned = turned_outline(solid, section.cut);
  if (!solid.side) return {solid, moved(turned, 0, solid.at)};
  const PlacedSolid* part = find_part(section);
  if (!part)
    throw InputError("side", "there is no part to stand beside",
                     "at = [x, y] instead");
  PlacedSolid placed{solid, {}};
  placed.spec.at = place_beside(turned, solid, part->outline);
  placed.outline = moved(turned, 0, placed.spec.at);
  return placed;
}

}  // namespace

bool is_electrode(Role role) { return role != Role::shield; }

Section build_section(const SectionSpec& spec) {
  Section section;
  section.cut = spec.cut;
  section.tank = spec.tank;
  section.liquid_bounds = liquid_bounds(spec.cut, spec.tank);
  std::vector<Problem> problems;
  // The part first: what stands beside it needs its place.
  std::vector<Solid> ordered = spec.solids;
  std::stable_partition(ordered.begin(), ordered.end(),
                        [](const Solid& s) { return s.role == Role::part; });
  for (const Solid& solid : ordered) {
    try {
      section.solids.push_back(place(solid, section));
    } catch (const InputError& error) {
      add(problems, solid.key, error);
    }
  }
  const double touch = kTouch * extent(section.liquid_bounds);
  for (const PlacedSolid& placed : section.solids) {
    check_place(placed, section, problems);
    check_features(placed, section, problems);
  }
  for (std::size_t i = 0; i < section.solids.size(); ++i)
    for (std::size_t j = i + 1; j < section.solids.size(); ++j)
      check_pair(section.solids[i], section.solids[j], touch, problems);
  if (!problems.empty()) throw InputError(problems);
  // Back into the order of the spec, which indices elsewhere refer to.
  std::vector<PlacedSolid> placed;
  for (const Solid& solid : spec.solids)
    placed.push_back(*std::find_if(
        section.solids.begin(), section.solids.end(),
        [&](const PlacedSolid& s) { return s.spec.key == solid.key; }));
  section.solids = std::move(placed);
  return section;
}

}  // namespace thinspot::mesh
