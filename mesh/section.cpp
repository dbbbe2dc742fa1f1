#include "mesh/section.hpp"

#include "mesh/contact.hpp"
#include "mesh/cut_by_line.hpp"
#include "mesh/errors.hpp"
#include "mesh/masking.hpp"
#include "mesh/placement.hpp"
#include "mesh/section_checks.hpp"

#include <algorithm>
#include <stdexcept>

namespace thinspot::mesh {

namespace {

Outline rectangle_bounds(const Point& low, const Point& high,
                         const char* left_face, const char* top_face) {
  const Point lower_right(high.x(), low.y()), upper_left(low.x(), high.y());
  return {{{{low, lower_right, 0, "wall"},
            {lower_right, high, 0, "wall"},
            {high, upper_left, 0, top_face},
            {upper_left, low, 0, left_face}}}};
}

/// The drawn tank up to the level; from above, all of it.
Outline drawn_bounds(Cut cut, const Tank& tank) {
  Outline bounds = tank.drawn;
  for (Loop& loop : bounds.loops)
    for (Curve& c : loop) c.face = "wall";
  if (cut == Cut::plan) return bounds;
  bounds = left_of(bounds, {{0, tank.level}, {-1, 0}}, "surface",
                   kTouch * extent(bounds));
  if (bounds.loops.empty())
    throw InputError("tank.level", "leaves no liquid in the tank",
                     "a level above the tank's floor");
  return bounds;
}

Outline liquid_bounds(Cut cut, const Tank& tank) {
  if (cut == Cut::axisymmetric)
    return rectangle_bounds({0, 0}, {tank.width / 2, tank.level}, "axis",
                            "surface");
  if (tank.shape == Tank::Shape::outline) return drawn_bounds(cut, tank);
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

void add(std::vector<Problem>& problems, const std::string& prefix,
         const InputError& error) {
  for (Problem p : error.problems()) {
    p.key = prefix + "." + p.key;
    problems.push_back(p);
  }
}

/// From the copy that the mask is drawn on to this one.
Point shift_from_first(const PlacedSolid& placed, const Section& section) {
  if (placed.spec.copy == 0) return {0, 0};
  for (const PlacedSolid& other : section.solids)
    if (other.spec.copy == 1 &&
        key_without_copy(other.spec) == key_without_copy(placed.spec))
      return placed.spec.at - other.spec.at;
  return {0, 0};
}

/// @param on_parts  those on parts, else the others
void apply_masks(Section& section, const std::vector<Mask>& masks,
                 bool on_parts, std::vector<Problem>& problems) {
  const double tolerance = kSmallestFeature * extent(section.liquid_bounds);
  for (const Mask& mask : masks) {
    bool found = false;
    for (PlacedSolid& placed : section.solids) {
      if (placed.spec.key != mask.on &&
          key_without_copy(placed.spec) != mask.on)
        continue;
      found = true;
      if ((placed.spec.role == Role::part) != on_parts) continue;
      try {
        placed.outline = masked(placed.outline, mask,
                                shift_from_first(placed, section), tolerance);
      } catch (const InputError& error) {
        add(problems, mask.key, error);
        break;
      }
    }
    if (!found && !on_parts)
      problems.push_back({mask.key + ".on", mask.on + " is not there to mask",
                          "\"part\", or the address of another solid, as in "
                          "\"anode.sheet\""});
  }
}

/// Masks lie where they are drawn: on the parts before these are moved.
void move_parts(Section& section, const SectionSpec& spec,
                std::vector<Problem>& problems) {
  if (spec.motion == Motion{}) return;
  apply_masks(section, spec.masks, true, problems);
  for (PlacedSolid& s : section.solids) {
    if (s.spec.role != Role::part) continue;
    const Point centre = axis_of(s.spec);
    s.outline = moved(moved(s.outline, 0, -centre), spec.motion.turn, centre);
    if (!spec.motion.flip) continue;
    s.outline = mirrored(s.outline, centre.x());
    s.flipped = true;
  }
}

/// Left of the axis everything is there already, mirrored.
void cut_at_axis(Section& section) {
  if (section.cut != Cut::axisymmetric) return;
  const double touch = kTouch * extent(section.liquid_bounds);
  for (PlacedSolid& placed : section.solids)
    if (bounding_box(placed.outline).low.x() < touch)
      placed.outline =
          left_of(placed.outline, {{0, 0}, {0, -1}}, "axis", touch);
}

}  // namespace

Place flipped(const Place& place, const Outline& outline) {
  const auto count = static_cast<int>(
      outline.loops[static_cast<std::size_t>(place.loop)].size());
  return {place.loop, count - 1 - place.curve, 1 - place.t};
}

std::size_t index_of(const Section& section, const std::string& key) {
  for (std::size_t s = 0; s < section.solids.size(); ++s)
    if (section.solids[s].spec.key == key) return s;
  throw std::out_of_range("no solid has the key " + key);
}

const Solid* find_solid(const SectionSpec& spec, const std::string& key) {
  for (const Solid& solid : spec.solids)
    if (solid.key == key) return &solid;
  return nullptr;
}

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
  if (problems.empty()) move_parts(section, spec, problems);
  const double touch = kTouch * extent(section.liquid_bounds);
  for (const PlacedSolid& placed : section.solids) {
    check_place(placed, section, problems);
    check_features(placed, section, problems);
  }
  for (std::size_t i = 0; i < section.solids.size(); ++i)
    for (std::size_t j = i + 1; j < section.solids.size(); ++j)
      check_pair(section.solids[i], section.solids[j], touch, problems);
  if (!problems.empty()) throw InputError(problems);
  press_together(section);
  cut_at_axis(section);
  if (spec.motion == Motion{}) apply_masks(section, spec.masks, true, problems);
  apply_masks(section, spec.masks, false, problems);
  if (!problems.empty()) throw InputError(problems);
  // Back into the order of the spec, which indices elsewhere refer to.
  std::vector<PlacedSolid> placed;
  for (const Solid& solid : spec.solids)
    placed.push_back(section.solids[index_of(section, solid.key)]);
  section.solids = std::move(placed);
  return section;
}

Section build_as_drawn(SectionSpec spec) {
  spec.motion = {};
  return build_section(spec);
}

}  // namespace thinspot::mesh
