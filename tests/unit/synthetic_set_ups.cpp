#include "tests/unit/synthetic_set_ups.hpp"

#include <stdexcept>

namespace thinspot::tests {

namespace {

using mesh::Point;
using mesh::Role;

mesh::Solid copy_of(mesh::Solid solid, int copy) {
  solid.copy = copy;
  solid.name += " " + std::to_string(copy);
  solid.key += "." + std::to_string(copy);
  return solid;
}

/// Straight lines from corner to corner.
mesh::Outline polygon(const std::vector<Point>& corners) {
  mesh::Loop loop;
  for (std::size_t k = 0; k < corners.size(); ++k)
    loop.push_back({corners[k], corners[(k + 1) % corners.size()], 0, "wall"});
  return {{loop}};
}

mesh::Mask mask_on(const std::string& solid, const std::string& face) {
  mesh::Mask mask;
  mask.key = "mask." + face;
  mask.on = solid;
  mask.faces = {face};
  return mask;
}

Synthetic rack_of(int columns, int rows, Point size) {
  Synthetic s;
  s.title = "A rack";
  s.tank = {0.2, 0.2};
  s.level = 0.18;
  s.part_size = size;
  s.anodes = {"left sheet", "right sheet"};
  const double wide = 0.12 / columns, high = 0.15 / rows;
  for (int row = 0; row < rows; ++row)
    for (int column = 0; column < columns; ++column)
      s.rack.emplace_back(0.04 + (column + 0.5) * wide,
                          0.01 + (row + 0.5) * high);
  return s;
}

Synthetic every_role() {
  Synthetic s;
  s.anodes = {"mesh"};
  s.inert = true;
  s.more = {
      plate("top", Role::clip, {1e-3, 8e-3}, {45e-3, 69e-3}),
      plate("frame", Role::thief, {3e-3, 3e-3}, {45e-3, 25e-3}),
      plate("baffle", Role::shield, {1e-3, 20e-3}, {30e-3, 50e-3}),
      plate("forgotten sheet", Role::floating, {2e-3, 40e-3}, {75e-3, 50e-3})};
  s.masks = {mask_on("part", "right")};
  return s;
}

Synthetic ten_anodes() {
  Synthetic s;
  s.anodes = {"one", "two",   "three", "four", "five",
              "six", "seven", "eight", "nine", "ten"};
  s.part_size = {1e-3, 20e-3};
  return s;
}

Synthetic half_dipped() {
  Synthetic s;
  s.part_size = {4e-3, 60e-3};
  s.part_at = {45e-3, 80e-3};
  s.level = 0.08;
  s.more = {plate("jaw", Role::clip, {4e-3, 6e-3}, {49e-3, 105e-3})};
  return s;
}

Synthetic anodes_below() {
  Synthetic s;
  s.part_size = {30e-3, 2.4e-3};
  s.anodes = {};
  s.more = {plate("floor sheet", Role::anode, {40e-3, 2e-3}, {45e-3, 15e-3}),
            plate("lower sheet", Role::anode, {10e-3, 2e-3}, {45e-3, 25e-3})};
  return s;
}

Synthetic leaning_walls() {
  Synthetic s;
  s.tank_shape = polygon({{0.02, 0}, {0.08, 0}, {0.1, 0.12}, {0, 0.12}});
  s.tank = {0.1, 0.12};
  s.part_at = {0.05, 0.05};
  s.anodes = {};
  s.more = {plate("sheet", Role::anode, {2e-3, 50e-3}, {25e-3, 50e-3})};
  return s;
}

/// A ridge on the floor that reaches above the liquid.
Synthetic two_pools() {
  Synthetic s = leaning_walls();
  s.tank_shape = polygon({{0, 0}, {0.1, 0}, {0.1, 0.12}, {0, 0.12}});
  s.tank_shape = polygon({{0, 0},
                          {0.068, 0},
                          {0.072, 0.11},
                          {0.076, 0},
                          {0.1, 0},
                          {0.1, 0.12},
                          {0, 0.12}});
  s.part_at = {0.045, 0.05};
  return s;
}

Synthetic long_spoon(double turn) {
  Synthetic s;
  s.shape = "spoon";
  s.sizes = {{"chord", 60e-3}, {"sagitta", 8e-3}, {"thickness", 1.2e-3}};
  s.turn = turn;
  s.spots = 4;
  return s;
}

Synthetic deep_channel() {
  Synthetic s;
  s.shape = "channel";
  s.sizes = {{"width", 12e-3},
             {"depth", 40e-3},
             {"wall", 2e-3},
             {"bottom_radius", 1e-3}};
  s.spots = 5;
  return s;
}

Synthetic bracket() {
  Synthetic s;
  s.shape = "bracket";
  s.sizes = {{"leg_1", 30e-3},
             {"leg_2", 40e-3},
             {"thickness", 2e-3},
             {"inside_radius", 1e-3},
             {"outside_radius", 3e-3}};
  s.spots = 5;
  return s;
}

Synthetic ring_anode() {
  Synthetic s;
  s.cut = mesh::Cut::axisymmetric;
  s.part_size = {6e-3, 30e-3};
  s.anodes = {"ring"};
  s.more = {plate("collar", Role::shield, {4e-3, 2e-3}, {12e-3, 50e-3})};
  return s;
}

Synthetic lacquered() {
  Synthetic s;
  s.part_size = {8e-3, 30e-3};
  s.masks = {mask_on("part", "left"), mask_on("part", "lower edge")};
  return s;
}

Synthetic huge_tank() {
  Synthetic s;
  s.tank = {5, 2.5};
  s.level = 2.2;
  s.part_size = {0.02, 0.6};
  s.part_at = {2.5, 1.1};
  s.anodes = {"left row", "right row"};
  return s;
}

Synthetic fine_wire() {
  Synthetic s;
  s.shape = "rod";
  s.sizes = {{"diameter", 1e-4}, {"length", 0.05}};
  s.cut = mesh::Cut::plan;
  return s;
}

}  // namespace

Synthetic rack_of_six() {
  Synthetic s = rack_of(3, 2, {2e-3, 30e-3});
  int copy = 0;
  for (const Point& at : s.rack)
    s.more.push_back(
        copy_of(plate("hook", Role::clip, {1e-3, 5e-3}, at + Point(0, 17.5e-3)),
                ++copy));
  return s;
}

std::vector<HardCase> set_ups() {
  Synthetic seen_from_above = rack_of(3, 1, {20e-3, 2e-3});
  seen_from_above.cut = mesh::Cut::plan;
  Synthetic masked_rack = rack_of(2, 1, {5e-3, 60e-3});
  masked_rack.masks = {mask_on("part", "right")};
  return {{"every role", every_role()},
          {"ten anodes", ten_anodes()},
          {"half dipped", half_dipped()},
          {"anodes below", anodes_below()},
          {"leaning walls", leaning_walls()},
          {"two pools", two_pools()},
          {"spoon", long_spoon(0)},
          {"spoon upright", long_spoon(1.2)},
          {"deep channel", deep_channel()},
          {"bracket", bracket()},
          {"ring anode", ring_anode()},
          {"lacquered", lacquered()},
          {"rack of six", rack_of_six()},
          {"rack of forty", rack_of(8, 5, {2e-3, 12e-3})},
          {"rack from above", seen_from_above},
          {"lacquered rack", masked_rack},
          {"tank of 5 m", huge_tank()},
          {"wire of 0.1 mm", fine_wire()}};
}

Synthetic set_up(const std::string& name) {
  for (const HardCase& one : set_ups())
    if (one.name == name) return one.wanted;
  throw std::out_of_range(name);
}

}  // namespace thinspot::tests
