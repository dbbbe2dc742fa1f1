#include "solver/preparation.hpp"

#include <catch2/catch.hpp>

#include <numbers>

using namespace thinspot;

namespace {

constexpr double pi = std::numbers::pi;

solver::Case with_part(const std::string& shape, const mesh::Sizes& sizes,
                       mesh::Cut cut, mesh::Point at = {0, 0}) {
  solver::Case c;
  c.section.cut = cut;
  mesh::Solid part;
  part.role = mesh::Role::part;
  part.shape = shape;
  part.sizes = sizes;
  part.at = at;
  c.section.solids = {part};
  return c;
}

}  // namespace

// Closed forms; arcs are taken as 64 chords, which is below 1e-4.
TEST_CASE("the volume of bodies of revolution") {
  const double flat = pi / 4 * 0.03 * 0.03 * 0.002;
  const mesh::Sizes coin{{"diameter", 0.03}, {"thickness", 0.002}};
  CHECK(*solver::part_volume(with_part("coin", coin, mesh::Cut::side)) ==
        Approx(flat).epsilon(1e-9));
  CHECK(
      *solver::part_volume(with_part("coin", coin, mesh::Cut::axisymmetric)) ==
      Approx(flat).epsilon(1e-9));
  // A ring of square section, by Pappus.
  const mesh::Sizes square{{"width", 0.004}, {"height", 0.004}};
  CHECK(*solver::part_volume(with_part("plate", square, mesh::Cut::axisymmetric,
                                       {0.02, 0.03})) ==
        Approx(2 * pi * 0.02 * 0.004 * 0.004).epsilon(1e-9));
  const mesh::Sizes rod{{"diameter", 0.01}, {"length", 0.05}};
  CHECK(*solver::part_volume(with_part("rod", rod, mesh::Cut::side)) ==
        Approx(pi / 4 * 1e-4 * 0.05).epsilon(1e-9));
}

TEST_CASE("a rounded edge takes off what geometry says") {
  // A full round of radius r = t/2 turns the rim into half a torus:
  // pi R^2 t + pi^2 r^2 R + 4/3 pi r^3 with R the radius inside it.
  const double r = 0.001, inner = 0.014;
  const mesh::Sizes coin{
      {"diameter", 0.03}, {"thickness", 0.002}, {"edge_radius", 0.000999}};
  const double round = pi * inner * inner * 2 * r + pi * pi * r * r * inner +
                       4.0 / 3 * pi * r * r * r;
  CHECK(*solver::part_volume(with_part("coin", coin, mesh::Cut::side)) ==
        Approx(round).epsilon(3e-4));
}

TEST_CASE("an extruded part has its depth, others tell no volume") {
  const mesh::Sizes plate{{"width", 0.02}, {"height", 0.03}};
  solver::Case c = with_part("plate", plate, mesh::Cut::side);
  CHECK_FALSE(solver::part_volume(c));
  c.depth = 0.01;
  CHECK(*solver::part_volume(c) == Approx(6e-6).epsilon(1e-9));
  CHECK_FALSE(solver::part_volume(solver::Case{}));
}
