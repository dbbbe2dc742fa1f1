#include "solved.hpp"

#include "bench_cases.hpp"
#include "mesh/refine.hpp"
#include "solver/certify.hpp"
#include "solver/estimate.hpp"
#include "solver/profile.hpp"

#include <algorithm>
#include <cmath>
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

Solved certified(const solver::Case& c) {
  solver::Certified done = solver::certify(solver::build_model(c), c);
  return {c, std::move(done.model), std::move(done.outcome)};
}

solver::Model model_of(const solver::Case& c, Eigen::Index least_nodes) {
  mesh::Section section = mesh::build_section(c.section);
  mesh::Mesh mesh = mesh::generate(section, solver::grading_of(c));
  while (mesh.nodes.cols() < least_nodes) mesh = mesh::refined(mesh, section);
  return solver::build_model(c, std::move(section), std::move(mesh));
}

Solved refined(const Solved& s) {
  solver::Model model = solver::build_model(
      s.used, s.model.section, mesh::refined(s.model.mesh, s.model.section));
  solver::Outcome outcome = solver::evaluate(model, s.used);
  return {s.used, std::move(model), std::move(outcome)};
}

std::vector<Solved> family(const solver::Case& c, int times) {
  std::vector<Solved> members{solved(c)};
  for (int k = 0; k < times; ++k) members.push_back(refined(members.back()));
  return members;
}

double order_of(const std::vector<double>& errors) {
  const std::size_t n = errors.size();
  return std::log2(std::abs(errors.at(n - 2) / errors.at(n - 1)));
}

void record(const std::string& name, const std::string& source,
            const std::string& quantity, double exact, const Figure& found,
            const Order& order) {
  record({name, source, quantity, exact, found.value, found.bar, order});
}

Figures figures_of(const Solved& s) {
  const solver::MeshErrors bars =
      solver::estimate_errors(s.model, s.used, s.outcome).errors;
  const solver::WorkingPoint& w = s.outcome.point;
  Figures f;
  f.resistance = {w.terminal_voltage / w.total_current, bars.resistance};
  f.current = {w.total_current, bars.current};
  f.mean = {s.outcome.parts.at(0).current_density_spread.mean,
            bars.parts.at(0).mean};
  for (std::size_t k = 0; k < s.outcome.probes.size(); ++k) {
    const Figure here{s.outcome.probes[k].window.value, bars.probes[k]};
    const double share = here.value / f.mean.value;
    f.probes.push_back(here);
    f.shares.push_back({share, (here.bar + share * f.mean.bar) / f.mean.value});
  }
  return f;
}

double total_current(const Solved& s) { return s.outcome.point.total_current; }

double density_error(const Solved& s,
                     const std::function<double(const Point&)>& exact) {
  const solver::Surface& surface = s.model.surfaces.at(0);
  const mesh::Outline& outline = solver::solid_of(s.model, surface).outline;
  double sum = 0, length = 0;
  for (const solver::SurfaceLoop& loop : surface.loops) {
    const solver::Profile profile(loop, s.outcome.parts[0].current_density);
    for (const solver::SurfaceEdge& e : loop.edges)
      for (const double share : {0.05, 0.2, 0.35, 0.5, 0.65, 0.8, 0.95}) {
        const double arc = e.from + share * (e.to - e.from);
        const auto at = solver::place_at(loop, outline, arc);
        const Point p =
            mesh::point_at(mesh::curve_of(outline, loop.loop, at.curve), at.t);
        const double off = profile.value_at(arc) - exact(p);
        sum += (e.to - e.from) * off * off;
        length += e.to - e.from;
      }
  }
  return std::sqrt(sum / length);
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
