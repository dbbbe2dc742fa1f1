// Left and right are alike. Gmsh's meshes are not mirror images of each other,
// so a mirrored drawing agrees within the error of two meshes; a mirrored mesh
// agrees but for rounding.
#include "bench_cases.hpp"
#include "solved.hpp"

#include <catch2/catch.hpp>

#include <map>

using namespace thinspot;
using mesh::Point;
using mesh::Role;

namespace {

constexpr double width = 0.09;

Point mirrored(const Point& p) { return {width - p.x(), p.y()}; }

/// Walked the other way, so that the solid stays on the left.
mesh::Outline mirrored(const mesh::Outline& o) {
  mesh::Outline image;
  for (const mesh::Loop& loop : o.loops) {
    mesh::Loop back(loop.rbegin(), loop.rend());
    for (mesh::Curve& c : back) {
      const Point from = mirrored(c.to);
      c.to = mirrored(c.from);
      c.from = from;
    }
    image.loops.push_back(back);
  }
  return image;
}

mesh::Section mirrored(const mesh::Section& section) {
  mesh::Section image = section;
  image.liquid_bounds = mirrored(section.liquid_bounds);
  for (mesh::PlacedSolid& s : image.solids) s.outline = mirrored(s.outline);
  return image;
}

mesh::Mesh mirrored(const mesh::Mesh& mesh, const mesh::Section& section) {
  mesh::Mesh image = mesh;
  image.nodes.row(0) = (width - mesh.nodes.row(0).array()).matrix();
  for (Eigen::Index k = 0; k < mesh.triangles.cols(); ++k) {
    const auto t = mesh.triangles.col(k);
    image.triangles.col(k) << t(0), t(2), t(1), t(5), t(4), t(3);
  }
  for (mesh::BoundaryEdge& e : image.boundary) {
    std::swap(e.nodes[0], e.nodes[1]);
    const double from = 1 - e.t_to;
    e.t_to = 1 - e.t_from;
    e.t_from = from;
    if (e.owner < 0) continue;
    const auto& outline = section.solids[static_cast<std::size_t>(e.owner)];
    const auto& loop = outline.outline.loops[static_cast<std::size_t>(e.loop)];
    e.curve = static_cast<int>(loop.size()) - 1 - e.curve;
  }
  return image;
}

/// One of each kind of solid, no two places alike.
solver::Case one_sided() {
  solver::Case c = tests::token();
  c.cathode.at.reset();
  c.accuracy.tolerance = 1e-4;
  c.section.solids[0].turn = 0.3;
  c.section.solids.push_back(tests::solid(
      Role::floating, "coil", "rod", {{"diameter", 0.006}}, {0.026, 0.03}));
  c.section.solids.push_back(tests::solid(Role::shield, "plastic", "plate",
                                          {{"width", 0.003}, {"height", 0.01}},
                                          {0.03, 0.07}));
  solver::Floating coil;
  coil.name = "coil";
  coil.solid = 2;
  coil.resistance.value = 1e-4;
  c.floating = {coil};
  return c;
}

}  // namespace

TEST_CASE("a mirrored drawing gives the mirrored currents", "[property]") {
  const solver::Case c = one_sided();
  auto image = c;
  for (auto& solid : image.section.solids) {
    solid.at = mirrored(solid.at);
    solid.turn = -solid.turn;
  }
  const auto a = tests::solved(c), b = tests::solved(image);
  const double mean = a.outcome.parts[0].current_density_spread.mean;
  const double margin = 2 * c.accuracy.tolerance * mean;
  // Along a circle around the token, millimetre by millimetre of its surface.
  double least = 1e9, largest = 0;
  for (int k = 0; k < 24; ++k) {
    CAPTURE(k);
    const double angle = 0.26 * k;
    const auto on = [&](double turn) {
      return Point(0.045 + 0.02 * std::cos(angle + turn),
                   0.05 + 0.02 * std::sin(angle + turn));
    };
    const double here = tests::mean_between(a, on(0), on(0.2));
    const double there =
        tests::mean_between(b, mirrored(on(0.2)), mirrored(on(0)));
    CHECK(here == Approx(there).margin(margin));
    least = std::min(least, here);
    largest = std::max(largest, here);
  }
  CHECK(largest > 1.5 * least);
  CHECK(a.outcome.point.terminal_voltage ==
        Approx(b.outcome.point.terminal_voltage)
            .epsilon(2 * c.accuracy.tolerance));
}

TEST_CASE("a mirrored mesh gives the mirrored currents", "[property]") {
  auto c = one_sided();
  c.accuracy.tolerance = 1e-3;
  c.cathode.resistance.value = GENERATE(0.0, 2.6e-4);
  CAPTURE(c.cathode.resistance.value);
  const auto here = tests::solved(c);
  const mesh::Section section = mirrored(here.model.section);
  mesh::Mesh image = mirrored(here.model.mesh, here.model.section);
  mesh::check_mesh(image);
  solver::Response response(image, section);
  solver::Model model{section, std::move(image), std::move(response),
                      {},      here.model.scale, 0,
                      0};
  const auto& electrodes = model.response.electrodes();
  model.surfaces = {solver::unroll(model.mesh, section, electrodes, 0)};
  const auto outcome = solver::evaluate(model, c);

  const solver::Spread& p = here.outcome.parts[0].current_density_spread;
  const solver::Spread& q = outcome.parts[0].current_density_spread;
  CHECK(p.mean == Approx(q.mean).epsilon(1e-6));
  CHECK(p.min == Approx(q.min).margin(1e-6 * p.mean));
  CHECK(p.max == Approx(q.max).margin(1e-6 * p.mean));
  CHECK((outcome.point.current - here.outcome.point.current).norm() <
        1e-6 * here.outcome.point.current.norm());
  // Node by node, whose numbers are the same in both meshes.
  const auto values = [](const solver::Model& m, const solver::Outcome& o) {
    std::map<int, double> all;
    const auto& e = m.response.electrodes();
    for (std::size_t k = 0; k < e.each[0].rows.size(); ++k) {
      const auto row = static_cast<std::size_t>(e.each[0].rows[k]);
      all[e.nodes.mesh_node[row]] =
          o.parts[0].current_density(static_cast<Eigen::Index>(k));
    }
    return all;
  };
  const auto a = values(here.model, here.outcome), b = values(model, outcome);
  REQUIRE(a.size() == b.size());
  for (const auto& [node, value] : a)
    CHECK(value == Approx(b.at(node)).margin(1e-6 * p.mean));
}
