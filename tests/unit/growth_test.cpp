// The surface of a part that moves with its deposit: its nodes, the mesh behind
// them, what it takes along from step to step, and when it is said to matter.
#include "solver/growth.hpp"

#include "case_text.hpp"
#include "solver/carried.hpp"
#include "solver/front.hpp"
#include "solver/growth_notes.hpp"
#include "solver/move_mesh.hpp"
#include "solver/schedule.hpp"
#include "solver/simulate.hpp"
#include "tests/solids.hpp"
#include "tests/verification/bench_cases.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace thinspot;
using Catch::Matchers::Contains;
using mesh::Point;
using mesh::Role;

namespace {

/// A sharp-edged bar of 10 mm by 4 mm in the middle of a box, a sheet beside.
solver::Case bar() {
  solver::Case c = tests::token();
  c.section.solids[0] =
      tests::solid(Role::part, "part", "plate",
                   {{"width", 0.01}, {"height", 0.004}}, {0.045, 0.05});
  c.depth = 0.05;
  c.accuracy.tolerance = 0.02;
  return c;
}

Eigen::VectorXd even(const solver::Model& model, double thickness) {
  const solver::Surface& surface = model.surfaces.front();
  const auto rows =
      model.response.electrodes().each[surface.electrode].rows.size();
  return Eigen::VectorXd::Constant(static_cast<Eigen::Index>(rows), thickness);
}

Eigen::Matrix2Xd front(const solver::Model& model, double thickness,
                       double reach) {
  Eigen::Matrix2Xd move = Eigen::Matrix2Xd::Zero(2, model.mesh.nodes.cols());
  solver::add_front(model.mesh, model.response.electrodes(),
                    model.surfaces.front(), even(model, thickness), reach,
                    move);
  return move;
}

/// Largest distance of the moved surface's nodes from an outline [m].
double farthest(const solver::Model& model, const mesh::Mesh& mesh,
                const mesh::Outline& outline) {
  double most = 0;
  for (const solver::SurfaceLoop& loop : model.surfaces.front().loops)
    for (const solver::SurfaceEdge& e : loop.edges)
      for (int node : e.node)
        most = std::max(
            most, mesh::nearest(outline, mesh.nodes.col(solver::mesh_node(
                                             model.response.electrodes(),
                                             model.surfaces.front(), node)))
                      .distance);
  return most;
}

}  // namespace

TEST_CASE("an even deposit on a sharp-edged bar leaves a larger one") {
  const solver::Model model = solver::build_model(bar());
  const double h = 2e-4;
  mesh::Mesh mesh = model.mesh;
  std::optional<Point> folded;
  REQUIRE(solver::move_nodes(mesh, {mesh, solver::ties_of(mesh)},
                             front(model, h, 4 * h), folded));
  CHECK(!folded);
  CHECK(!solver::find_fold(mesh));
  solver::Case larger = bar();
  larger.section.solids[0].sizes = {{"width", 0.01 + 2 * h},
                                    {"height", 0.004 + 2 * h}};
  const mesh::Section section = mesh::build_section(larger.section);
  // Faces are straight and so are their edges: what is left is rounding.
  CHECK(farthest(model, mesh, section.solids[0].outline) < 1e-12);
  // All other solids stay where they are, nodes of walls stay on the wall.
  for (const mesh::BoundaryEdge& e : mesh.boundary) {
    if (e.owner == 0) continue;
    for (int node : e.nodes) {
      const Point now = mesh.nodes.col(node),
                  before = model.mesh.nodes.col(node);
      if (e.owner > 0)
        CHECK(now == before);
      else
        CHECK((now.x() == before.x() || now.y() == before.y()));
    }
  }
}

TEST_CASE("what follows is found once for all moves of a mesh") {
  const solver::Model model = solver::build_model(bar());
  const solver::Following follow(model.mesh, solver::ties_of(model.mesh));
  mesh::Mesh once = model.mesh, twice = model.mesh;
  std::optional<Point> folded;
  const Eigen::Matrix2Xd half = front(model, 1e-4, 4e-4);
  REQUIRE(solver::move_nodes(once, follow, 2 * half, folded));
  REQUIRE(solver::move_nodes(twice, follow, half, folded));
  REQUIRE(solver::move_nodes(twice, follow, half, folded));
  // Linear in what is told: what is left is rounding of a tank of 0.1 m.
  CHECK((once.nodes - twice.nodes).cwiseAbs().maxCoeff() < 1e-14);
}

TEST_CASE("a moved mesh answers as if it were a new one") {
  const solver::Model model = solver::build_model(bar());
  mesh::Mesh mesh = model.mesh;
  std::optional<Point> folded;
  REQUIRE(solver::move_nodes(mesh, {mesh, solver::ties_of(mesh)},
                             front(model, 2e-4, 8e-4), folded));
  const solver::Response moved = model.response.moved(mesh, model.section),
                         anew(mesh, model.section);
  // Rounding of a direct solve.
  CHECK((moved.condensed() - anew.condensed()).norm() <
        1e-10 * anew.condensed().norm());
  CHECK((moved.condensed() - model.response.condensed()).norm() >
        1e-4 * anew.condensed().norm());
}

TEST_CASE("a move through a wall is refused and leaves the mesh alone") {
  const solver::Model model = solver::build_model(bar());
  mesh::Mesh mesh = model.mesh;
  std::optional<Point> folded;
  CHECK(!solver::move_nodes(mesh, {mesh, solver::ties_of(mesh)},
                            front(model, 0.06, 0.1), folded));
  REQUIRE(folded);
  CHECK(mesh.nodes == model.mesh.nodes);
}

TEST_CASE("nodes on walls along x or y slide on them, those of solids stay") {
  const solver::Model model =
      solver::build_model(tests::channel(0.02, 0.03, 5, 4e-4, 2e-4, 1));
  mesh::Mesh mesh = model.mesh;
  std::optional<Point> folded;
  REQUIRE(solver::move_nodes(mesh, {mesh, solver::ties_of(mesh)},
                             front(model, 0.01, 0.02), folded));
  // The plate spans the channel: all of the liquid is pressed together evenly.
  for (Eigen::Index n = 0; n < mesh.nodes.cols(); ++n) {
    const double before = model.mesh.nodes(0, n) - 0.002;
    CHECK(mesh.nodes(0, n) - 0.002 ==
          Approx(0.01 + 0.5 * before).margin(1e-10));
    CHECK(mesh.nodes(1, n) == Approx(model.mesh.nodes(1, n)).margin(1e-12));
  }
}

TEST_CASE("deposit falls to nothing towards lacquer") {
  solver::Case c = bar();
  c.section.masks = {{"mask.1", "part", {"left", "lower edge"}, {}}};
  const solver::Model model = solver::build_model(c);
  const double h = 2e-4;
  const Eigen::Matrix2Xd move = front(model, h, 4 * h);
  double most = 0;
  for (const mesh::BoundaryEdge& e : model.mesh.boundary) {
    if (e.owner != 0) continue;
    for (int node : e.nodes) {
      if (e.masked) CHECK(move.col(node).norm() == 0);
      most = std::max(most, move.col(node).norm());
    }
  }
  // At the sharp edge of the two bare faces it goes along both.
  CHECK(most == Approx(std::sqrt(2) * h));
}

TEST_CASE("what has grown is found again on another mesh, turned and flipped") {
  solver::Case c = tests::token();
  const solver::Model before = solver::build_model(c);
  const double h = 5e-5;
  solver::Carried carried;
  const auto part = [](const solver::Model& m) -> const mesh::PlacedSolid& {
    return solver::solid_of(m, m.surfaces.front());
  };
  // Thicker to the right, as drawn.
  Eigen::Matrix2Xd move = front(before, h, 4 * h);
  const auto stretched = [&](const Point& p) {
    return 1 + 20 * (p.x() - 0.045);
  };
  for (Eigen::Index n = 0; n < move.cols(); ++n)
    move.col(n) *= stretched(before.mesh.nodes.col(n));
  carried.take(part(before), before.response.electrodes(),
               before.surfaces.front(), move);
  c.section.motion = {true, 0.3};
  c.accuracy.tolerance = 1e-2;
  const solver::Model after = solver::build_model(c);
  Eigen::Matrix2Xd given = Eigen::Matrix2Xd::Zero(2, after.mesh.nodes.cols());
  carried.give(part(after), after.response.electrodes(), after.surfaces.front(),
               given);
  const mesh::Outline& outline = part(after).outline;
  for (const solver::SurfaceLoop& loop : after.surfaces.front().loops)
    for (const solver::SurfaceEdge& e : loop.edges)
      for (std::size_t k = 0; k < 3; ++k) {
        const int node = solver::mesh_node(after.response.electrodes(),
                                           after.surfaces.front(), e.node[k]);
        const std::array<double, 3> arcs{e.from, e.to, 0.5 * (e.from + e.to)};
        const double t = solver::fraction_of(loop, outline, e.curve, arcs[k]);
        const mesh::Curve& curve = mesh::curve_of(outline, loop.loop, e.curve);
        // Back to how the part is drawn: flipped, then turned back.
        const Point way = mesh::point_at(curve, t) - Point(0.045, 0.05);
        const Point drawn(-std::cos(0.3) * way.x() + std::sin(0.3) * way.y(),
                          0);
        const Point wanted = h * stretched(drawn + Point(0.045, 0)) *
                             mesh::outward_normal(curve, t);
        // Of the old mesh's arcs, which are parabolas.
        CHECK((given.col(node) - wanted).norm() < 0.01 * h);
      }
}

TEST_CASE("a deposit is thick by the smallest radius of the bare surface") {
  const auto size_of = [](const solver::Case& c) {
    const solver::Schedule s = solver::run_schedule(c);
    return solver::smallest_size(s.coats[0], s.drawn.solids[0].outline,
                                 s.drawn.cut);
  };
  solver::Case c = tests::token();
  c.accuracy.tolerance = 0.02;
  solver::SmallestSize size = size_of(c);
  CHECK(size.radius);
  CHECK(size.size == Approx(3e-4));
  size = size_of(bar());
  CHECK(!size.radius);
  CHECK(size.size == Approx(0.004));
  // Its edges under lacquer, one face bare.
  c = bar();
  c.section.masks = {
      {"mask.1", "part", {"left", "lower edge", "upper edge"}, {}}};
  size = size_of(c);
  CHECK(!size.radius);
}

TEST_CASE("a thick deposit is noted, with the way to have it followed") {
  solver::Case c = tests::token();
  c.accuracy.tolerance = 0.02;
  const auto noted = [](const solver::Case& of) {
    std::string all;
    for (const std::string& note : solver::simulate(of).notes)
      if (note.find("hick deposit") != std::string::npos) all += note;
    return all;
  };
  const solver::Result result = solver::simulate(c);
  const double heaviest = result.parts.front().thickness.value.max;
  const double time = c.steps.front().duration.value;
  c.steps.front().duration.value = time * 0.98 * 0.02 * 3e-4 / heaviest;
  CHECK(noted(c).empty());
  c.steps.front().duration.value = time * 1.02 * 0.02 * 3e-4 / heaviest;
  CHECK_THAT(noted(c), Contains("more than 2 % of the smallest radius of the "
                                "part's bare surface, 300 \u00B5m"));
  CHECK_THAT(noted(c), Contains("Set growth = true"));
  c.growth = true;
  CHECK(noted(c).empty());
}

TEST_CASE("growth is a yes or no at the top of the case") {
  using tests::sound_case;
  using tests::with;
  CHECK(!tests::read_text(sound_case()).content.growth);
  const std::string grows =
      with(sound_case(), "schema = 1\n", "schema = 1\ngrowth = true\n");
  CHECK(tests::read_text(grows).content.growth);
  CHECK_THAT(tests::only_problem(with(grows, "growth = true", "growth = 1")),
             Contains("growth:"));
  CHECK_THAT(
      tests::only_problem(grows + "[[step]]\nturning = { rate = \"6 rpm\" }\n"),
      Contains("step.2.turning: does not go with growth = true; a [[step]] for "
               "each position"));
}
