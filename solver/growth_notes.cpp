#include "solver/growth_notes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace thinspot::solver {

namespace {

using mesh::Curve;
using mesh::Loop;
using mesh::Outline;

/// Cosine between faces that meet in a sharp edge.
constexpr double kEdge = 0.98;
/// A surface that leans less than this against the plane across the axis does
/// not curve around it.
constexpr double kLevel = 0.05;

struct Found {
  double radius = std::numeric_limits<double>::infinity();
  bool sharp = false;
};

bool meets_sharply(const Loop& loop, std::size_t k) {
  const Curve &a = loop[k], &b = loop[(k + 1) % loop.size()];
  return (a.to - b.from).norm() < 1e-9 * mesh::length(a) &&
         mesh::outward_normal(a, 1).dot(mesh::outward_normal(b, 0)) < kEdge;
}

void look_at(const SurfaceLoop& wet, const Outline& outline, bool about_axis,
             Found& found) {
  const Loop& loop = outline.loops[static_cast<std::size_t>(wet.loop)];
  std::vector<bool> from_start(loop.size(), false), to_end(loop.size(), false);
  for (const SurfaceEdge& e : wet.edges) {
    const auto k = static_cast<std::size_t>(e.curve);
    if (mesh::is_arc(loop[k]))
      found.radius = std::min(found.radius, mesh::radius(loop[k]));
    const double a = fraction_of(wet, outline, e.curve, e.from),
                 b = fraction_of(wet, outline, e.curve, e.to);
    if (a < 1e-6) from_start[k] = true;
    if (b > 1 - 1e-6) to_end[k] = true;
    if (!about_axis) continue;
    for (double t : {a, 0.5 * (a + b), b}) {
      const double place = std::clamp(t, 0.0, 1.0);
      const double lean = std::abs(mesh::outward_normal(loop[k], place).x());
      if (lean > kLevel)
        found.radius =
            std::min(found.radius, mesh::point_at(loop[k], place).x() / lean);
    }
  }
  for (std::size_t k = 0; k < loop.size(); ++k)
    if (to_end[k] && from_start[(k + 1) % loop.size()] &&
        meets_sharply(loop, k))
      found.sharp = true;
}

double least_extent(const Outline& outline, mesh::Cut cut) {
  const mesh::Box box = mesh::bounding_box(outline);
  // Of a body on the axis only one half is in the section.
  const bool half =
      cut == mesh::Cut::axisymmetric && box.low.x() < 1e-6 * box.high.x();
  return std::min((half ? 2 : 1) * box.size().x(), box.size().y());
}

std::string lengths(double metres) {
  return metres < 1e-3 ? fmt::format("{:.3g} \u00B5m", 1e6 * metres)
                       : fmt::format("{:.3g} mm", 1e3 * metres);
}

std::string percent(double before, double after) {
  const double change = 100 * (after / before - 1);
  if (std::abs(change) < 0.05) return "no more and no less";
  return fmt::format("{:.2g} % {}", std::abs(change),
                     change > 0 ? "more" : "less");
}

std::string area_change(const Growth& g) {
  const double change = 100 * (g.area_grown / g.area_drawn - 1);
  if (std::abs(change) < 0.005) return "stays the same";
  return fmt::format("{} by {:.2g} %", change > 0 ? "grows" : "shrinks",
                     std::abs(change));
}

std::string after_growth(const Schedule& s) {
  const Growth& g = *s.growth;
  int substeps = 0;
  for (int n : g.substeps) substeps += n;
  const Spread &before = g.unmoved.front().thickness,
               &after = s.spreads.front().thickness;
  return fmt::format(
      "The part's surface moves with its deposit, in {} stretches of time; "
      "half as many would change the thickness by {:.1g} % of the mean at "
      "most. Its area {}. Against a surface that stays as it is drawn the "
      "thinnest place has {}, the heaviest {}.",
      substeps, 100 * g.errors.front() / after.mean, area_change(g),
      percent(before.min, after.min), percent(before.max, after.max));
}

}  // namespace

GrowthResult describe_growth(const Schedule& s, const Case& c) {
  const Growth& g = *s.growth;
  GrowthResult r;
  r.substeps.assign(c.steps.size(), 0);
  for (std::size_t k = 0; k < s.phases.size(); ++k)
    r.substeps[s.phases[k].step] += g.substeps[k];
  for (double error : g.errors)
    r.substep_error = std::max(r.substep_error, error);
  r.area_drawn = g.area_drawn;
  r.area_grown = g.area_grown;
  for (const CoatSpread& spread : g.unmoved)
    r.unmoved.push_back(spread.thickness);
  return r;
}

SmallestSize smallest_size(const Coat& coat, const Outline& drawn,
                           mesh::Cut cut) {
  Found found;
  for (const SurfaceLoop& loop : coat.surface.loops)
    look_at(loop, drawn, cut == mesh::Cut::axisymmetric, found);
  const double extent = least_extent(drawn, cut);
  if (std::isfinite(found.radius) && (!found.sharp || found.radius < extent))
    return {found.radius, true};
  return {extent, false};
}

std::vector<std::string> growth_notes(const Schedule& s, const Case& c) {
  if (s.growth) return {after_growth(s)};
  for (std::size_t p = 0; p < s.coats.size(); ++p) {
    const Model& model = s.steps.front().solved->model;
    const mesh::Outline& drawn =
        s.drawn
            .solids[mesh::index_of(s.drawn,
                                   solid_of(model, model.surfaces[p]).spec.key)]
            .outline;
    const SmallestSize small = smallest_size(s.coats[p], drawn, s.drawn.cut);
    const double thickest = s.spreads[p].thickness.max;
    if (!(thickest > kThick * small.size)) continue;
    const std::string against =
        small.radius
            ? fmt::format("the smallest radius of the part's bare surface, {}",
                          lengths(small.size))
            : fmt::format(
                  "the part's least extent, {} (flat faces and sharp "
                  "edges have no radius to compare with)",
                  lengths(small.size));
    const std::string cannot =
        std::any_of(c.steps.begin(), c.steps.end(),
                    [](const Step& step) { return step.turning.has_value(); })
            ? "Growth is not followed in a part that turns within a step."
            : "Set growth = true to have that followed.";
    return {fmt::format(
        "Thick deposit: {} at the heaviest place is more than {:.2g} % of {}. "
        "The surface is taken to stay where it is drawn, which a deposit this "
        "thick does not. {}",
        lengths(thickest), 100 * kThick, against, cannot)};
  }
  return {};
}

}  // namespace thinspot::solver
