// A brass disc between two copper sheets, drawn in code: how thick the copper
// gets in half an hour. All in SI units.
#include <thinspot/mesh/errors.hpp>
#include <thinspot/solver/simulate.hpp>

#include <cstdio>

using namespace thinspot;

void add(solver::Case& c, mesh::Role role, const char* name, const char* shape,
         const mesh::Sizes& sizes, double x, double y) {
  mesh::Solid s;
  s.name = s.key = name;
  s.role = role, s.shape = shape, s.sizes = sizes, s.at = {x, y};
  c.section.solids.push_back(s);
  if (role != mesh::Role::anode) return;
  c.anodes.emplace_back().name = name;
  c.anodes.back().solid = c.section.solids.size() - 1;
}

int main() try {
  solver::Case c;
  const mesh::Sizes sheet{{"width", 0.002}, {"height", 0.07}};
  c.section.tank = {mesh::Tank::Shape::box, 0.09, 0.12, 0.1};
  add(c, mesh::Role::part, "part", "coin",
      {{"diameter", 0.03}, {"thickness", 0.0024}}, 0.045, 0.05);
  add(c, mesh::Role::anode, "left", "plate", sheet, 0.008, 0.05);
  add(c, mesh::Role::anode, "right", "plate", sheet, 0.082, 0.05);
  c.solution.metal = {"copper", 0.063546, 2, 8960, "IUPAC"};
  c.solution.conductivity.value = 20;         // S/m
  c.cathode.resistance.value = 2.6e-4;        // slope of polarization [ohm m2]
  c.supply.current = solver::Quantity{0.33};  // A
  c.steps = {{{1800}}};                       // s
  const solver::Result result = solver::simulate(c);
  const solver::PartResult& part = result.parts.front();
  std::printf("%.1f um on average; %.1f um, %s; %.2f V\n",
              part.thickness.value.mean * 1e6,
              part.thin_spots.front().thickness * 1e6,
              part.thin_spots.front().where.c_str(), result.cell.voltage);
} catch (const CaseError& error) {
  std::fprintf(stderr, "%s\n", error.what());
  return 1;
}
