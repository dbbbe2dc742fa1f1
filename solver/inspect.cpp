#include "solver/inspect.hpp"

#include "mesh/errors.hpp"
#include "solver/deposit.hpp"
#include "solver/judged.hpp"
#include "solver/model.hpp"

#include <algorithm>

namespace thinspot::solver {

namespace {

DepthFrom depth_from(const Case& c) {
  if (c.section.cut == mesh::Cut::axisymmetric) return DepthFrom::none;
  if (c.depth) return DepthFrom::given;
  return c.part_area ? DepthFrom::area : DepthFrom::shape;
}

}  // namespace

Inspection inspect(const Case& c) {
  Inspection r;
  r.section = mesh::build_section(c.section);
  const std::vector<std::size_t> parts = part_solids(c);
  if (parts.empty()) throw InputError("part", "is missing", "a [part] table");
  const mesh::PlacedSolid& part = r.section.solids[parts.front()];
  check_target_faces(part.outline, c);
  r.depth = section_depth(c, r.section);
  r.depth_from = depth_from(c);
  const WettedSection wetted = find_wetted(r.section);
  r.areas = find_areas(c, wetted, r.depth);
  r.cell = estimate_cell(c, r.section, wetted, r.areas, r.depth);
  r.usual = usual_range(c);
  if (r.usual)
    r.usual_current = {r.usual->low * r.areas.drawing(),
                       r.usual->high * r.areas.drawing()};
  const double growth = growth_per_charge(c.solution.metal) *
                        c.solution.efficiency.value * r.cell.density;
  r.mean_thickness = growth * total_duration(c);
  if (c.target.thickness && growth > 0)
    r.time_needed = *c.target.thickness / growth;
  r.anode_ratio = r.areas.anodes / r.areas.cathode();
  if (c.section.cut == mesh::Cut::side)
    r.hanging = read_hanging(part.outline, r.section.tank.level);
  const Bench bench{c, r.section, wetted, r.areas, r.cell, r.depth};
  r.findings = look_at_drawing(bench);
  for (Finding& f : look_at_numbers(bench)) r.findings.push_back(std::move(f));
  std::stable_sort(
      r.findings.begin(), r.findings.end(),
      [](const Finding& a, const Finding& b) { return a.look < b.look; });
  r.notes = c.notes;
  r.notes.insert(r.notes.end(), wetted.notes.begin(), wetted.notes.end());
  return r;
}

}  // namespace thinspot::solver
