#include "mesh/placement.hpp"

#include "mesh/errors.hpp"
#include "mesh/shape.hpp"

#include <fmt/format.h>

namespace thinspot::mesh {

namespace {

/// Where a solid with a side and a gap stands: centred on the part, moved
/// along the side's direction until the free distance is the gap.
Point place_beside(const Outline& turned, const Solid& solid,
                   const Outline& part) {
  const Box p = bounding_box(part), s = bounding_box(turned);
  const Point way = direction(*solid.side);
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

Outline all_parts(const Section& section) {
  Outline parts;
  for (const PlacedSolid& s : section.solids)
    if (s.spec.role == Role::part)
      parts.loops.insert(parts.loops.end(), s.outline.loops.begin(),
                         s.outline.loops.end());
  return parts;
}

std::string with_place(const std::string& text, std::size_t place) {
  return fmt::format("{}.{}", text, place);
}

}  // namespace

Outline outline_at_origin(const Solid& solid, Cut cut) {
  if (solid.shape == "outline") {
    if (solid.drawn.loops.empty())
      throw InputError("file", "holds no outline", "a closed outline");
    return solid.drawn;
  }
  const ShapeKind* kind = find_shape(solid.shape);
  if (!kind)
    throw InputError("shape", "\"" + solid.shape + "\" is not a shape",
                     "one of those in docs/case_file.md");
  return kind->outline(solid.sizes, cut);
}

Point direction(Side side) {
  switch (side) {
    case Side::left: return {-1, 0};
    case Side::right: return {1, 0};
    case Side::above: return {0, 1};
    case Side::below: return {0, -1};
  }
  return {0, 0};
}

PlacedSolid place(const Solid& solid, const Section& section) {
  const Outline turned =
      moved(outline_at_origin(solid, section.cut), solid.turn, {0, 0});
  if (!solid.side) return {solid, moved(turned, 0, solid.at)};
  const Outline parts = all_parts(section);
  if (parts.loops.empty())
    throw InputError("side", "there is no part to stand beside",
                     "at = [x, y] instead");
  PlacedSolid placed{solid, {}};
  placed.spec.at = place_beside(turned, solid, parts);
  placed.outline = moved(turned, 0, placed.spec.at);
  return placed;
}

std::vector<Solid> copies_on_rack(const std::vector<Solid>& drawn,
                                  const std::vector<Point>& places) {
  std::vector<Solid> copies;
  for (std::size_t k = 0; k < places.size(); ++k)
    for (Solid copy : drawn) {
      copy.copy = static_cast<int>(k) + 1;
      copy.at += places[k] - places.front();
      copy.name = copy.role == Role::part ? fmt::format("part {}", k + 1)
                                          : with_place(copy.name, k + 1);
      copy.key = with_place(copy.key, k + 1);
      copies.push_back(std::move(copy));
    }
  return copies;
}

Point axis_of(const Solid& part) { return part.at + part.axis; }

std::string key_without_copy(const Solid& solid) {
  if (solid.copy == 0) return solid.key;
  return solid.key.substr(0, solid.key.rfind('.'));
}

}  // namespace thinspot::mesh
