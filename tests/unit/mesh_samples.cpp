#include "mesh_samples.hpp"
#include "mesh/generate.hpp"
#include "mesh/triangulation.hpp"
#include "tests/solids.hpp"

#include <utility>

namespace thinspot::tests {

using namespace mesh;

namespace {

Meshed meshed(const std::string& name, const SectionSpec& spec) {
  Section section = build_section(spec);
  Grading grading;
  grading.polarization_length.assign(spec.solids.size(), 0.005);
  grading.tolerance = 0.03;
  grading.averaging_length = 1e-3;
  Mesh mesh = generate(section, grading);
  return {name, std::move(section), std::move(mesh)};
}

Solid coin(const Point& at) {
  return solid(
      Role::part, "part", "coin",
      {{"diameter", 0.03}, {"thickness", 0.0024}, {"edge_radius", 0.0006}}, at);
}

}  // namespace

Meshed meshed_coin() {
  SectionSpec spec;
  spec.tank = {Tank::Shape::box, 0.09, 0.12, 0.1};
  spec.solids = {coin({0.045, 0.05}),
                 solid(Role::anode, "sheet", "plate",
                       {{"width", 0.002}, {"height", 0.07}}, {0.0078, 0.05})};
  Mask mask;
  mask.key = "mask.back";
  mask.on = "part";
  mask.faces = {"right"};
  spec.masks = {mask};
  return meshed("coin", spec);
}

Meshed meshed_turned_coin() {
  SectionSpec spec;
  spec.cut = Cut::axisymmetric;
  spec.tank = {Tank::Shape::box, 0.06, 0.08, 0.08};
  const Sizes sheet{{"width", 0.04}, {"height", 0.002}};
  spec.solids = {coin({0, 0.04}),
                 solid(Role::anode, "lower", "plate", sheet, {0, 0.01}),
                 solid(Role::anode, "upper", "plate", sheet, {0, 0.07})};
  return meshed("turned coin", spec);
}

Meshed meshed_rods() {
  SectionSpec spec;
  spec.cut = Cut::plan;
  spec.tank = {Tank::Shape::round, 0.1, 0, 0};
  spec.solids = {
      solid(Role::part, "part", "rod", {{"diameter", 0.02}}, {0.03, 0.05}),
      solid(Role::anode, "anode", "rod", {{"diameter", 0.012}},
            {0.075, 0.055})};
  return meshed("rods", spec);
}

Meshed meshed_plates() {
  SectionSpec spec;
  spec.tank = {Tank::Shape::box, 0.09, 0.12, 0.1};
  spec.solids = {solid(Role::part, "part", "plate",
                       {{"width", 0.004}, {"height", 0.03}}, {0.05, 0.05}),
                 solid(Role::anode, "sheet", "plate",
                       {{"width", 0.002}, {"height", 0.07}}, {0.0078, 0.05})};
  return meshed("plates", spec);
}

std::vector<Meshed> meshed_samples() {
  return {meshed_coin(), meshed_turned_coin(), meshed_rods(), meshed_plates()};
}

Meshed one_triangle(const Loop& loop) {
  Meshed m{"one triangle", {}, {}};
  m.section.liquid_bounds.loops = {loop};
  RawTriangles raw;
  for (std::size_t k = 0; k < 3; ++k) {
    raw.nodes[k] = loop.at(k).from;
    raw.corners.push_back(k);
    raw.edges.push_back({k, (k + 1) % 3, kWall, 0, static_cast<int>(k)});
  }
  m.mesh = build_mesh(m.section, raw);
  return m;
}

}  // namespace thinspot::tests
