// Layers of several tanks on one part: they add up on its material, wherever
// it stands in each.
#include "solver/layers.hpp"
#include "bench_cases.hpp"
#include "solved.hpp"
#include "solver/simulate.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <numbers>

using namespace thinspot;
using solver::Case;
using solver::Result;

namespace {

Case lasting(Case c, double minutes) {
  c.steps = {{{60 * minutes, 0}}};
  return c;
}

Case of_nickel(Case c) {
  c.solution.metal = tests::nickel();
  c.solution.conductivity.value = 9;
  c.solution.efficiency.value = 0.95;
  return c;
}

/// A bracket, like itself in no mirror and no turn, before one sheet.
Case bracket() {
  Case c = tests::plan_box(0.08, 0.06, 10);
  c.section.solids = {
      tests::solid(mesh::Role::part, "part", "bracket",
                   {{"leg_1", 0.02},
                    {"leg_2", 0.014},
                    {"thickness", 0.003},
                    {"inside_radius", 0.001},
                    {"outside_radius", 0.002},
                    {"end_radius", 0.0003}},
                   {0.045, 0.025}),
      tests::solid(mesh::Role::anode, "sheet", "plate",
                   {{"width", 0.002}, {"height", 0.05}}, {0.005, 0.03})};
  tests::add_anode(c, 1, 0);
  c.cathode.resistance.value = 3e-4;
  return lasting(c, 20);
}

const solver::BandedSpread& thickness(const Result& r) {
  return r.parts[0].thickness;
}

/// All figures of one part are `times` those of another, within both bars.
void check_alike(const Result& a, const Result& b, double times) {
  const solver::Spread &p = thickness(a).value, &q = thickness(b).value,
                       &e = thickness(a).mesh_error,
                       &f = thickness(b).mesh_error;
  CHECK(std::abs(p.min - times * q.min) <= e.min + times * f.min);
  CHECK(std::abs(p.mean - times * q.mean) <= e.mean + times * f.mean);
  CHECK(std::abs(p.max - times * q.max) <= e.max + times * f.max);
}

/// Metal of a layer over the whole's surface [m3].
double volume_on(const Result& whole, std::size_t layer) {
  double sum = 0;
  const auto& surface = whole.parts[0].surface;
  for (std::size_t n = 0; n < surface.size(); ++n)
    sum += surface[n].weight *
           whole.layers[layer].thickness[0](static_cast<Eigen::Index>(n));
  return sum;
}

}  // namespace

TEST_CASE("two layers of half the time are one of the whole", "[property]") {
  const Result one = solver::simulate(lasting(tests::token(), 40));
  const Case half = lasting(tests::token(), 20);
  const Result two = solver::simulate(std::vector<Case>{half, half});
  check_alike(two, one, 1);
  CHECK(two.parts[0].mass == Approx(one.parts[0].mass).epsilon(1e-9));
  REQUIRE(two.layers.size() == 2);
  CHECK(two.layers[0].name == "copper 1");
  CHECK(two.layers[1].name == "copper 2");
  check_alike(one, two.layers[0].own, 2);
}

TEST_CASE("the order of layers does not change what they are in sum",
          "[property]") {
  const Case copper = lasting(tests::token(), 25);
  const Case nickel = of_nickel(lasting(tests::token(), 12));
  const Result a = solver::simulate(std::vector<Case>{copper, nickel});
  const Result b = solver::simulate(std::vector<Case>{nickel, copper});
  // The same meshes and windows: rounding alone.
  CHECK(thickness(a).value.min == Approx(thickness(b).value.min).epsilon(1e-9));
  CHECK(thickness(a).value.mean ==
        Approx(thickness(b).value.mean).epsilon(1e-9));
  CHECK(thickness(a).value.max == Approx(thickness(b).value.max).epsilon(1e-9));
  CHECK(a.layers[1].own.used.part_metal == "copper");
  CHECK(b.layers[1].own.used.part_metal == "nickel");
}

// Faraday's law by hand: M I t / (n F rho) for each metal, over the area.
TEST_CASE("the mean of two metals is what the currents bring", "[property]") {
  const Case copper = lasting(tests::token(), 25);
  const Case nickel = of_nickel(lasting(tests::token(), 12));
  const Result r = solver::simulate(std::vector<Case>{copper, nickel});
  const double copper_volume =
      0.063546 * 0.33 * 1500 / (2 * 96485.33212 * 8960);
  const double nickel_volume =
      0.95 * 0.0586934 * 0.33 * 720 / (2 * 96485.33212 * 8908);
  const double area = r.parts[0].area;
  // Currents balance to 1e-9 and better.
  CHECK(thickness(r).value.mean ==
        Approx((copper_volume + nickel_volume) / area).epsilon(1e-8));
  CHECK(r.parts[0].mass ==
        Approx(copper_volume * 8960 + nickel_volume * 8908).epsilon(1e-8));
  // Areas go by the arcs, currents by the meshes' parabolas through them. Along
  // an edge of 0.4 rad the two measures differ by a hundredth, on the 3 % of
  // the surface that is round, where a layer varies by a few hundredths along
  // an edge: 1e-5.
  CHECK(volume_on(r, 0) == Approx(copper_volume).epsilon(1e-5));
  CHECK(volume_on(r, 1) == Approx(nickel_volume).epsilon(1e-5));
}

TEST_CASE("at every point the whole is the sum of its layers", "[property]") {
  const Case copper = lasting(tests::token(), 25);
  Case nickel = of_nickel(lasting(tests::token(), 12));
  nickel.section.solids[1].at.x() = 0.08;  // the sheet on the other side
  const Result r = solver::simulate(std::vector<Case>{copper, nickel});
  const auto& surface = r.parts[0].surface;
  for (std::size_t n = 0; n < surface.size(); ++n) {
    const auto at = static_cast<Eigen::Index>(n);
    CHECK(std::abs(r.layers[0].thickness[0](at) + r.layers[1].thickness[0](at) -
                   surface[n].thickness) <= 1e-12 * thickness(r).value.mean);
  }
  // And each layer is what it is alone, where the same points are in both.
  for (std::size_t l : {0u, 1u}) {
    std::size_t met = 0;
    const solver::PartResult& own = r.layers[l].own.parts[0];
    for (const solver::SurfacePoint& p : own.surface)
      for (std::size_t n = 0; n < surface.size(); ++n) {
        if ((surface[n].at - p.at).norm() > 1e-10) continue;
        ++met;
        const double value =
            r.layers[l].thickness[0](static_cast<Eigen::Index>(n));
        // The whole may have refined this layer's mesh once more.
        CHECK(std::abs(value - p.thickness) <= 0.02 * own.thickness.value.mean);
      }
    CHECK(met > own.surface.size() / 4);
  }
}

// A sheet at the left for one layer, at the right for the other: what a flip
// half way does.
TEST_CASE("a mirrored tank for the second layer is a flip", "[property]") {
  const Case left = lasting(tests::token(), 20);
  Case right = left;
  right.section.solids[1].at.x() = 0.09 - 0.0078;
  const Result layers = solver::simulate(std::vector<Case>{left, right});
  Case flipped = left;
  flipped.steps.push_back({{1200, 0}, {true, 0}});
  check_alike(layers, solver::simulate(flipped), 1);
  CHECK(thickness(layers).value.min >
        2.5 * thickness(layers.layers[0].own).value.min);
}

TEST_CASE("layers meet on the material of a part that stands elsewhere",
          "[property]") {
  const Case c = bracket();
  const Result one = solver::simulate(c);
  Case other = c;
  SECTION("the whole tank turned by a quarter, the part with it") {
    other.section.tank = {mesh::Tank::Shape::box, 0.06, 0.08, 0};
    for (mesh::Solid& s : other.section.solids) {
      s.at = mesh::Point(0.06 - s.at.y(), s.at.x());
      s.turn += std::numbers::pi / 2;
    }
  }
  SECTION("the whole tank mirrored, the part flipped in it") {
    for (mesh::Solid& s : other.section.solids) s.at.x() = 0.08 - s.at.x();
    other.steps[0].motion.flip = true;
  }
  const Result two = solver::simulate(std::vector<Case>{c, other});
  check_alike(two, one, 2);
  // Not so where the part is turned without the tank: what was far from the
  // sheet looks at it then, and gets more than twice.
  other = c;
  other.section.solids[0].turn = std::numbers::pi;
  const Result against = solver::simulate(std::vector<Case>{c, other});
  CHECK(thickness(against).value.min > 2.2 * thickness(one).value.min);
}

// Lacquer for the second layer cuts the outline's curves where those of the
// first are whole.
TEST_CASE("what is masked in one layer has the others", "[property]") {
  const Case c = bracket();
  Case masked = c;
  // A stretch of the leg's lower side, in the middle of its one curve.
  mesh::Mask mask{"mask.1", "part", {}, {}};
  mask.between = std::array<mesh::Point, 2>{mesh::Point(0.040, 0.018),
                                            mesh::Point(0.048, 0.018)};
  masked.section.masks = {mask};
  const bool below = GENERATE(false, true);
  CAPTURE(below);
  const Result r = solver::simulate(below ? std::vector<Case>{masked, c}
                                          : std::vector<Case>{c, masked});
  const std::size_t bare = below ? 0 : 1, whole = 1 - bare;
  std::size_t under = 0;
  const auto& surface = r.parts[0].surface;
  for (std::size_t n = 0; n < surface.size(); ++n) {
    const auto at = static_cast<Eigen::Index>(n);
    const mesh::Point& p = surface[n].at;
    if (std::abs(p.y() - 0.018) > 1e-9 || p.x() < 0.0401 || p.x() > 0.0479)
      continue;
    ++under;
    CHECK(surface[n].wetted);
    CHECK(std::abs(r.layers[bare].thickness[0](at)) <
          1e-12 * surface[n].thickness);
    CHECK(r.layers[whole].thickness[0](at) ==
          Approx(surface[n].thickness).epsilon(1e-12));
  }
  CHECK(under > 4);
  for (std::size_t l : {0u, 1u}) {
    const solver::PartResult& own = r.layers[l].own.parts[0];
    // What the mesh may still change when the whole refines it.
    const double error = own.thickness.mesh_error.mean * own.area;
    CHECK(std::abs(volume_on(r, l) - own.thickness.value.mean * own.area) <=
          2 * error + 1e-9 * own.area * own.thickness.value.mean);
  }
}

TEST_CASE("a probe of either file is read in both layers", "[property]") {
  Case c = bracket();
  c.probes = {{"far end", {0.055, 0.018}}};
  Case other = c;
  other.section.tank = {mesh::Tank::Shape::box, 0.06, 0.08, 0};
  for (mesh::Solid& s : other.section.solids) {
    s.at = mesh::Point(0.06 - s.at.y(), s.at.x());
    s.turn += std::numbers::pi / 2;
  }
  other.probes = {{"far end", {0.06 - 0.018, 0.055}},
                  {"near end", {0.06 - 0.018, 0.036}}};
  const Result r = solver::simulate(std::vector<Case>{c, other});
  REQUIRE(r.probes.size() == 2);  // the same point under one name is one
  for (std::size_t k : {0u, 1u}) {
    const solver::ProbeResult& both = r.probes[k];
    double sum = 0, error = 0;
    for (const solver::LayerResult& layer : r.layers) {
      REQUIRE(layer.own.probes.size() == 2);
      CHECK(layer.own.probes[k].name == both.name);
      sum += layer.own.probes[k].thickness;
      error += layer.own.probes[k].thickness_mesh_error;
    }
    CHECK(both.thickness == Approx(sum).epsilon(1e-12));
    CHECK(both.thickness_mesh_error == Approx(error).epsilon(1e-12));
    // Turned tanks: either layer puts half of it there.
    CHECK(std::abs(r.layers[0].own.probes[k].thickness - 0.5 * sum) <= error);
  }
  CHECK(r.probes[0].name == "far end");
  CHECK(r.probes[1].thickness > 1.2 * r.probes[0].thickness);
}

TEST_CASE("bars of layers hold against finer meshes", "[property]") {
  std::vector<Case> layers{lasting(tests::token(), 25),
                           of_nickel(lasting(tests::token(), 12))};
  layers[1].section.solids[1].at.x() = 0.08;
  const Result coarse = solver::simulate(layers);
  for (Case& c : layers) c.accuracy.tolerance = 2e-5;
  check_alike(coarse, solver::simulate(layers), 1);
  const solver::BandedSpread& t = thickness(coarse);
  CHECK(t.mesh_error.min > 0);
  CHECK(t.mesh_error.min <= 1e-3 * t.value.mean);
  CHECK(t.mesh_error.max <= 1e-3 * t.value.mean);
}

// Two layers alike, each with its own doubt of the polarization: the half
// bands add by squares, so that of both is the whole's by the root of two.
TEST_CASE("doubts of layers are independent", "[property]") {
  Case c = bracket();
  c.supply = {};
  c.supply.current = solver::Quantity{0.5, 0};
  c.cathode.resistance.plus_minus = 1.5e-4;
  c.accuracy.tolerance = 1e-4;
  const Result one = solver::simulate(lasting(c, 40));
  const Case half = lasting(c, 20);
  const Result two = solver::simulate(std::vector<Case>{half, half});
  const auto down = [](const Result& r) {
    return thickness(r).value.min - thickness(r).min_band.low;
  };
  // The mesh's error is in both, by squares; below a tenth it counts less than
  // a hundredth.
  REQUIRE(down(one) > 10 * thickness(two).mesh_error.min);
  CHECK(down(two) == Approx(down(one) / std::sqrt(2)).epsilon(0.02));
}
