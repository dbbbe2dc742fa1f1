#include "io/case_reading.hpp"
#include "io/library_metals_to_plate.hpp"
#include "io/trade_units.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io {

namespace {

constexpr double kAssumedRadius = 0.2e-3;  // [m]

/// A quarter of the smallest size leaves more than half of it straight.
double radius_for(const mesh::ShapeKind& kind, const mesh::Sizes& sizes) {
  double radius = kAssumedRadius;
  for (const mesh::SizeKey& key : kind.sizes) {
    const auto size = sizes.find(key.name);
    if (!is_radius(key.name) && size != sizes.end())
      radius = std::min(radius, size->second / 4);
  }
  return radius;
}

/// Whether the rounding shows in this section: the end of a rod does not where
/// the rod is seen end on.
bool changes_outline(const mesh::ShapeKind& kind, const mesh::Sizes& with,
                     const mesh::Sizes& without, mesh::Cut cut) {
  return mesh::perimeter(kind.outline(with, cut)) !=
         mesh::perimeter(kind.outline(without, cut));
}

/// A radius that the user left out is assumed, not 0: no real edge is sharp,
/// and the sharper it is the more it draws.
void assume_radii(CaseReading& r, mesh::Solid& part) {
  const mesh::ShapeKind& kind = *mesh::find_shape(part.shape);
  for (const mesh::SizeKey& key : kind.sizes) {
    if (!is_radius(key.name) || part.sizes.contains(key.name)) continue;
    const double radius = radius_for(kind, part.sizes);
    mesh::Sizes rounded = part.sizes;
    rounded.emplace(key.name, radius);
    try {
      if (!changes_outline(kind, rounded, part.sizes, r.content.section.cut))
        continue;
    } catch (const InputError&) {
      continue;  // no room for a rounding: it stays sharp
    }
    part.sizes = rounded;
    r.content.assumed.push_back(
        {fmt::format("part.{}", key.name),
         fmt::format("{:.3g} mm", to_mm(radius)),
         "left out; a lightly broken edge. The sharper, the less even"});
  }
}

/// What the sizes, the area given or the section's depth say.
std::optional<double> whole_surface(const CaseReading& r,
                                    const mesh::Solid& part) {
  const solver::Case& c = r.content;
  if (c.depth)
    return *c.depth *
           mesh::perimeter(mesh::outline_at_origin(part, c.section.cut));
  if (c.part_area) return c.part_area;
  const mesh::ShapeKind* kind = mesh::find_shape(part.shape);
  return kind ? kind->real_area(part.sizes) : std::nullopt;
}

void read_area(CaseReading& r, TableReader& t, const mesh::Solid& part) {
  const solver::Case& c = r.content;
  const bool planar = c.section.cut != mesh::Cut::axisymmetric;
  if (t.has("area") && !planar)
    t.wrong("area", "an axisymmetric section knows the area itself",
            "leave it out");
  if (t.has("area") && c.depth)
    t.wrong("area", "the depth sets the area as well",
            "give one of part.area and depth");
  r.part_area = whole_surface(r, part);
  if (planar && !r.part_area && !t.has("area") && !r.root.find("depth"))
    t.missing("area",
              fmt::format("give the part's whole surface, as in area = \"0.16 "
                          "dm2\", or the section's depth: the sizes of its "
                          "shape, {}, do not tell it",
                          part.shape));
}

/// What the steps turn it about.
void read_axis(CaseReading& r, TableReader& t, mesh::Solid& part) {
  const auto axis = t.point("axis");
  if (!axis) return;
  if (r.content.section.cut == mesh::Cut::axisymmetric)
    t.wrong("axis", "has no use in an axisymmetric section", "leave it out");
  part.axis = *axis - part.at;
}

/// One place in the table, or several on a rack.
void read_places(CaseReading& r, TableReader& t, mesh::Solid& part) {
  const bool rack = r.root.find("rack");
  if (rack && t.has("at"))
    t.wrong("at", "the places are given by rack.at as well",
            "give one of the two");
  if (!rack && !t.has("at"))
    t.missing("at",
              "give at = [\"45 mm\", \"50 mm\"], or several places in [rack]");
  if (!r.content.rack) {
    if (t.has("at")) check_on_axis(r, part, "part.at");
    return;
  }
  for (const mesh::Point& place : r.content.rack->at) {
    part.at = place;
    const bool sound = r.findings.empty();
    check_on_axis(r, part, "rack.at");
    if (sound && !r.findings.empty()) break;  // the others say the same
  }
  part.at = r.content.rack->at.front();
}

}  // namespace

void read_part(CaseReading& r) {
  TableReader t = open_table(r, "part");
  if (!t.present()) return;
  r.content.part_metal = t.text("metal").value_or("");
  r.content.base_metals = base_metals();
  r.content.part_area = t.value("area");
  std::optional<mesh::Solid> part = read_solid(r, t, mesh::Role::part);
  if (!part) return;
  read_places(r, t, *part);
  read_axis(r, t, *part);
  if (mesh::find_shape(part->shape)) assume_radii(r, *part);
  read_area(r, t, *part);
  keep_faces(r, *part);
  r.content.section.solids.push_back(std::move(*part));
}

}  // namespace thinspot::io
