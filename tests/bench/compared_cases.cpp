#include "tests/bench/compared_cases.hpp"

#include "tests/solids.hpp"
#include "tests/verification/bench_cases.hpp"

#include <numbers>
#include <vector>

namespace thinspot::bench {

using mesh::Role;

solver::Case coin(double turn, double shift) {
  solver::Case c = tests::token();
  c.cathode.at.reset();
  c.supply.current.reset();
  c.supply.voltage = solver::Quantity{1, 0};
  c.section.motion.turn = turn;
  c.section.solids[0].at.y() += shift;
  return c;
}

double angle(int k) { return 2 * std::numbers::pi * k / kAngles; }

solver::Case changed(int k) {
  solver::Case c = coin();
  c.cathode.resistance.value = 1.3e-4 + 3.9e-4 * k / (kChanges - 1);
  c.supply.voltage.reset();
  c.supply.current_density =
      solver::Quantity{100 + 200. * ((k * 83) % kChanges) / (kChanges - 1), 0};
  return c;
}

solver::Case rack_of_48() {
  solver::Case c = coin();
  c.section.tank = {mesh::Tank::Shape::box, 0.2, 0.474, 0.454};
  std::vector<mesh::Point> places;
  for (int k = 0; k < 48; ++k)
    places.emplace_back(0.055 + 0.03 * (k / 12), 0.04 + 0.034 * (k % 12));
  c.section.solids = mesh::copies_on_rack(
      {tests::solid(
          Role::part, "part", "coin",
          {{"diameter", 0.024}, {"thickness", 0.002}, {"edge_radius", 3e-4}},
          places[0])},
      places);
  c.rack = solver::Rack{places, {}};
  c.anodes.clear();
  for (const double x : {0.014, 0.186}) {
    c.section.solids.push_back(tests::solid(
        Role::anode, x < 0.1 ? "left sheet" : "right sheet", "plate",
        {{"width", 0.002}, {"height", 0.406}}, {x, 0.227}));
    tests::add_anode(c, c.section.solids.size() - 1, 0);
  }
  return c;
}

}  // namespace thinspot::bench
