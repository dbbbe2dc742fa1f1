#include "bench_cases.hpp"

namespace thinspot::tests {

using mesh::Role;

solver::Metal copper() { return {"copper", 0.063546, 2, 8960, "IUPAC"}; }
solver::Metal nickel() { return {"nickel", 0.0586934, 2, 8908, "IUPAC"}; }

void add_anode(solver::Case& c, std::size_t index, double resistance) {
  solver::Anode anode;
  anode.name = c.section.solids[index].name;
  anode.solid = index;
  anode.metal = "copper";
  anode.polarization.resistance.value = resistance;
  c.anodes.push_back(anode);
}

solver::Case channel(double gap, double height, double conductivity,
                     double cathode_resistance, double anode_resistance,
                     double voltage) {
  const double plate = 0.1 * gap;
  solver::Case c;
  c.section.cut = mesh::Cut::plan;
  c.section.tank = {mesh::Tank::Shape::box, gap + 2 * plate, height, 0};
  const mesh::Sizes sizes{{"width", plate}, {"height", height}};
  c.section.solids = {
      solid(Role::part, "part", "plate", sizes, {plate / 2, height / 2}),
      solid(Role::anode, "anode", "plate", sizes,
            {gap + 1.5 * plate, height / 2})};
  c.depth = 1;
  c.solution.metal = copper();
  c.solution.conductivity.value = conductivity;
  c.cathode.resistance.value = cathode_resistance;
  add_anode(c, 1, anode_resistance);
  c.supply.voltage = solver::Quantity{voltage, 0};
  c.steps = {{{3600, 0}}};
  return c;
}

solver::Case rod_in_tube(double r1, double r2, double conductivity,
                         double cathode_resistance, double anode_resistance) {
  const double wall = 0.1 * r2, outer = r2 + wall, tank = 1.2 * outer;
  solver::Case c;
  c.section.cut = mesh::Cut::plan;
  c.section.tank = {mesh::Tank::Shape::round, 2 * tank, 0, 0};
  const mesh::Point middle(tank, tank);
  c.section.solids = {
      solid(Role::part, "part", "rod", {{"diameter", 2 * r1}}, middle),
      solid(Role::anode, "tube", "tube",
            {{"diameter", 2 * outer}, {"wall", wall}, {"open", 1}}, middle)};
  c.depth = 1;
  c.solution.metal = copper();
  c.solution.conductivity.value = conductivity;
  c.cathode.resistance.value = cathode_resistance;
  add_anode(c, 1, anode_resistance);
  c.supply.voltage = solver::Quantity{1, 0};
  c.steps = {{{3600, 0}}};
  return c;
}

solver::Case token() {
  solver::Case c;
  c.section.tank = {mesh::Tank::Shape::box, 0.09, 0.12, 0.1};
  c.section.solids = {
      solid(Role::part, "part", "coin",
            {{"diameter", 0.03}, {"thickness", 0.0024}, {"edge_radius", 3e-4}},
            {0.045, 0.05}),
      solid(Role::anode, "sheet", "plate", {{"width", 0.002}, {"height", 0.07}},
            {0.0078, 0.05})};
  c.solution.metal = copper();
  c.solution.conductivity.value = 20;
  c.cathode.resistance.value = 2.6e-4;
  c.cathode.at = 200;
  add_anode(c, 1, 0);
  c.supply.current = solver::Quantity{0.33, 0};
  c.steps = {{{2400, 0}}};
  return c;
}

}  // namespace thinspot::tests
