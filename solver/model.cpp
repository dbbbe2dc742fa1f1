#include "solver/model.hpp"

#include "mesh/errors.hpp"
#include "solver/judged.hpp"
#include "solver/polarization.hpp"
#include "solver/stopwatch.hpp"

#include <algorithm>

namespace thinspot::solver {

namespace {

/// Of the mean current density, what a curved law's slope is taken at.
constexpr double kCrowding = 3;

/// Of all parts, for a mean current density [m2].
double rough_area(const Case& c) {
  constexpr double some = 1e-3;
  std::optional<double> area = c.part_area;
  for (const mesh::Solid& s : c.section.solids) {
    const mesh::ShapeKind* kind =
        s.role == mesh::Role::part ? mesh::find_shape(s.shape) : nullptr;
    if (!area && kind) area = kind->real_area(s.sizes);
  }
  return area.value_or(some) * static_cast<double>(copies_of(c));
}

/// Smallest conductivity times resistance that each solid can come to [m].
std::vector<double> polarization_lengths(const Case& given) {
  // Of a curved law the slope where currents crowd, at some times the mean;
  // what is steeper yet the estimate finds.
  const double area = rough_area(given) / kCrowding;
  const Case c =
      has_curved_laws(given) ? with_linear_laws(given, area, area) : given;
  const auto least = [](const Quantity& resistance) {
    return std::max(0.0, resistance.value - resistance.plus_minus);
  };
  std::vector<double> lengths;
  for (std::size_t s = 0; s < c.section.solids.size(); ++s) {
    double resistance = least(polarization_of(c, s).resistance);
    if (const Anode* anode = anode_of(c, s))
      resistance += anode->bag_resistance.value;
    for (const Floating& f : c.floating)
      if (f.solid == s) resistance = least(f.resistance);
    lengths.push_back(resistance * c.solution.conductivity.value);
  }
  return lengths;
}

}  // namespace

mesh::Grading grading_of(const Case& c) {
  mesh::Grading grading;
  grading.polarization_length = polarization_lengths(c);
  grading.tolerance = c.accuracy.tolerance;
  grading.averaging_length = c.accuracy.averaging_length;
  return grading;
}

std::vector<std::size_t> part_solids(const Case& c) {
  std::vector<std::size_t> parts;
  for (std::size_t s = 0; s < c.section.solids.size(); ++s)
    if (c.section.solids[s].role == mesh::Role::part) parts.push_back(s);
  return parts;
}

double section_depth(const Case& c, const mesh::Section& section) {
  if (section.cut == mesh::Cut::axisymmetric) {
    if (c.depth || c.part_area)
      throw InputError(c.depth ? "depth" : "part.area",
                       "has no use in an axisymmetric section",
                       "leave it out: the section knows its own area");
    return 1;
  }
  if (c.depth) return *c.depth;
  const std::vector<std::size_t> parts = part_solids(c);
  if (parts.empty()) throw InputError("part", "is missing", "a [part] table");
  const mesh::PlacedSolid& part = section.solids[parts.front()];
  std::optional<double> area = c.part_area;
  if (!area) {
    const mesh::ShapeKind* kind = mesh::find_shape(part.spec.shape);
    if (kind) area = kind->real_area(part.spec.sizes);
  }
  if (!area)
    throw InputError(
        "part.area",
        "is missing: a drawn " + part.spec.shape +
            " does not tell how much metal there is to plate",
        "area = \"0.16 dm2\" under [part], or depth = \"30 mm\" at the top");
  return *area / mesh::perimeter(part.outline);
}

const mesh::PlacedSolid& solid_of(const Model& model, const Surface& surface) {
  const Electrodes& electrodes = model.response.electrodes();
  return model.section.solids[electrodes.each[surface.electrode].solid];
}

Model build_model(const Case& c) {
  const Stopwatch meshing;
  mesh::Section section = mesh::build_section(c.section);
  mesh::Mesh mesh = mesh::generate(section, grading_of(c));
  const double mesh_seconds = meshing.seconds();
  Model model = build_model(c, std::move(section), std::move(mesh));
  model.mesh_seconds = mesh_seconds;
  return model;
}

Model build_model(const Case& c, mesh::Section section, mesh::Mesh mesh) {
  const Stopwatch responding;
  Response response(mesh, section);
  Model model =
      build_model(c, std::move(section), std::move(mesh), std::move(response));
  model.response_seconds = responding.seconds();
  return model;
}

Model build_model(const Case& c, mesh::Section section, mesh::Mesh mesh,
                  Response response) {
  SectionScale scale;
  scale.depth = section_depth(c, section);
  for (const Wire& w : c.wires)
    scale.wire_area += bare_area(w) * static_cast<double>(copies_of(c));
  Model model{std::move(section),
              std::move(mesh),
              std::move(response),
              {},
              scale,
              0,
              0};
  const Electrodes& electrodes = model.response.electrodes();
  for (std::size_t e = 0; e < electrodes.each.size(); ++e) {
    const mesh::PlacedSolid& solid =
        model.section.solids[electrodes.each[e].solid];
    if (solid.spec.role != mesh::Role::part) continue;
    Surface surface = unroll(model.mesh, model.section, electrodes, e);
    mark_judged(surface, model.section, electrodes.each[e].solid, c);
    model.surfaces.push_back(std::move(surface));
    model.scale.part_area += electrodes.each[e].measure * model.scale.depth;
  }
  return model;
}

}  // namespace thinspot::solver
