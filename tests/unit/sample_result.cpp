#include "tests/unit/sample_result.hpp"

namespace thinspot::tests {

namespace {

using mesh::Point;

mesh::Mesh two_triangles() {
  mesh::Mesh m;
  m.nodes.resize(2, 9);
  // Corners counter-clockwise from (0,0), then the middles: bottom, right,
  // diagonal, top, left.
  m.nodes << 0, 0.01, 0.01, 0, 0.005, 0.01, 0.005, 0.005, 0, 0, 0, 0.01, 0.01,
      0, 0.005, 0.005, 0.01, 0.005;
  m.triangles.resize(6, 2);
  m.triangles << 0, 0, 1, 2, 2, 3, 4, 6, 5, 7, 6, 8;
  return m;
}

solver::SurfacePoint point(Point at, double arc, int face, double weight,
                           double thickness) {
  solver::SurfacePoint p;
  p.at = at;
  p.normal = {0, 1};
  p.arc = arc;
  p.face = face;
  p.weight = weight;
  p.current_density = 200;
  p.thickness = thickness;
  return p;
}

solver::PartResult square_part() {
  solver::PartResult part;
  part.name = "part";
  part.area = 16e-4;
  part.current = 0.32;
  part.mass = 0.253e-3;
  part.current_density = {{150, 200, 320}, {140, 160}, {200, 200}, {300, 340}};
  part.thickness = {{12e-6, 17.6e-6, 28e-6},
                    {10.8e-6, 13.2e-6},
                    {17.6e-6, 17.6e-6},
                    {25e-6, 31e-6}};
  part.current_density.mesh_error = {0.12, 0.02, 0.34};
  part.thickness.mesh_error = {1.2e-8, 2e-9, 3.4e-8};
  part.faces = {
      {"left", 8e-4, 0.16, {150, 190, 300}, {12e-6, 16e-6, 26e-6}, true},
      {"right, \"far\"",
       8e-4,
       0.16,
       {160, 210, 320},
       {13e-6, 19e-6, 28e-6},
       false}};
  part.thin_spots = {
      {{0, 0.005}, 0.005, "left", "middle of the left face", 12e-6}};
  part.heavy_spots = {
      {{0.01, 0.01}, 0.02, "right, \"far\"", "upper right corner", 28e-6}};
  part.surface = {point({0, 0}, 0, 0, 4e-4, 12e-6),
                  point({0.01, 0}, 0.01, 1, 4e-4, 14e-6),
                  point({0.01, 0.01}, 0.02, 1, 4e-4, 28e-6),
                  point({0, 0.01}, 0.03, 0, 4e-4, 16.4e-6)};
  part.surface[1].judged = false;
  return part;
}

}  // namespace

solver::StepResult only_step(const solver::CellResult& cell,
                             double part_current) {
  solver::StepResult step;
  step.duration = 2400;
  step.cell = cell;
  step.part_current = part_current;
  step.mean_current_density = 200;
  step.max_current_density = 320;
  return step;
}

solver::Result sample_result() {
  solver::Result r;
  r.used.title = "a square";
  r.used.solution.name = "acid copper";
  r.used.solution.metal = {"copper", 63.546e-3, 2, 8960, "a handbook"};
  r.used.solution.conductivity = {18, 2};
  r.used.cathode.resistance = {2.6e-4, 0};
  r.used.cathode.at = 200;
  r.used.steps = {{{2400, 0}}};
  r.used.assumed = {{"part.edge_radius", "0.2 mm", "left out"}};
  r.section.cut = mesh::Cut::side;
  r.section.tank.width = 0.09;
  r.mesh = two_triangles();
  r.depth = 0.0236;
  r.potential = Eigen::VectorXd::LinSpaced(9, 0.1, 0.5);
  r.current_density = Eigen::Matrix2Xd::Constant(2, 9, 150);
  r.cell = {0.33, 0.42, {0.36, 0.48}, {0.33, 0.33}, "current", 1.2727};
  r.parts = {square_part()};
  r.cell.voltage_mesh_error = 4e-5;
  r.cell.resistance_mesh_error = 1.2e-4;
  r.probes = {{"centre", {0, 0.005}, "left", 150, 12e-6}};
  r.probes[0].current_density_mesh_error = 0.15;
  r.probes[0].thickness_mesh_error = 1.5e-8;
  r.steps = {only_step(r.cell, 0.32)};
  r.anodes = {{"sheet", 1, 0.33, 14e-4, 235, 290, 0.26e-3}};
  r.wires = {{"wire", 0.8e-4, 0.01}};
  r.wagner_number = 0.31;
  r.wagner_length = 0.03;
  r.target.emplace();
  r.target->wanted = 15e-6;
  r.target->least = 12e-6;
  r.target->least_band = {10.8e-6, 13.2e-6};
  r.target->shortfall = 3e-6;
  r.target->time_needed = 3000.0;
  r.target->least_mesh_error = 1.2e-8;
  r.refinements = 2;
  r.within_tolerance = false;
  r.used.accuracy.tolerance = 2e-4;
  r.cautions = {"the mains cable is long"};
  r.notes = {"a planar section"};
  r.mesh_seconds = 0.1;
  r.solve_seconds = 0.2;
  r.total_seconds = 0.3;
  return r;
}

}  // namespace thinspot::tests
