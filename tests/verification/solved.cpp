#include "solved.hpp"

#include "bench_cases.hpp"
#include "solver/profile.hpp"

#include <limits>

namespace thinspot::tests {

using mesh::Point;

namespace {

double nearest_arc(const solver::SurfaceLoop& loop,
                   const mesh::Outline& outline, const Point& p) {
  double best = std::numeric_limits<double>::infinity(), arc = 0;
  const mesh::Loop& curves = outline.loops[static_cast<std::size_t>(loop.loop)];
  for (std::size_t k = 0; k < curves.size(); ++k) {
    const mesh::Foot foot = mesh::nearest(curves[k], p);
    if (foot.distance >= best) continue;
    best = foot.distance;
    arc = solver::arc_of(loop, outline, static_cast<int>(k), foot.t);
  }
  return arc;
}

}  // namespace

Solved solved(const solver::Case& c) {
  solver::Model model = solver::build_model(c);
  solver::Outcome outcome = solver::evaluate(model, c);
  return {c, std::move(model), std::move(outcome)};
}

double current_of(const Solved& s, std::size_t solid) {
  const auto& each = s.model.response.electrodes().each;
  for (std::size_t e = 0; e < each.size(); ++e)
    if (each[e].solid == solid)
      return s.outcome.point.current(static_cast<Eigen::Index>(e));
  return 0;
}

double mean_between(const Solved& s, const Point& from, const Point& to,
                    std::size_t part) {
  const solver::Surface& surface = s.model.surfaces.at(part);
  const solver::SurfaceLoop& loop = surface.loops.at(0);
  const mesh::Outline& outline = solver::solid_of(s.model, surface).outline;
  const double a = nearest_arc(loop, outline, from);
  double b = nearest_arc(loop, outline, to);
  if (b < a) b += loop.length;
  const solver::Profile profile(loop, s.outcome.parts[part].current_density);
  return profile.integral(a, b) / (b - a);
}

mesh::Solid drawn(mesh::Role role, const std::string& name,
                  const mesh::Outline& outline) {
  const Point centre = mesh::bounding_box(outline).centre();
  mesh::Solid s = solid(role, name, "outline", {}, centre);
  s.drawn = mesh::moved(outline, 0, -centre);
  return s;
}

mesh::Solid drawn(mesh::Role role, const std::string& name,
                  const std::vector<Point>& corners) {
  mesh::Loop loop;
  for (std::size_t k = 0; k < corners.size(); ++k)
    loop.push_back(
        {corners[k], corners[(k + 1) % corners.size()], 0, "outline"});
  return drawn(role, name, mesh::Outline{{loop}});
}

solver::Case plan_box(double width, double height, double conductivity) {
  solver::Case c;
  c.section.cut = mesh::Cut::plan;
  c.section.tank.width = width;
  c.section.tank.height = height;
  c.depth = 1;
  c.solution.metal = copper();
  c.solution.conductivity.value = conductivity;
  c.supply.voltage = solver::Quantity{1, 0};
  c.steps = {{{3600, 0}}};
  return c;
}

}  // namespace thinspot::tests
