#include "solver/set_up_figures.hpp"

#include "solver/burn.hpp"
#include "solver/uncertainty.hpp"

#include <algorithm>

namespace thinspot::solver {

namespace {

using Eigen::Index;

Spread over_all(const Spread& a, const Spread& b) {
  return {std::min(a.min, b.min), 0, std::max(a.max, b.max)};
}

/// Of a part's real area, and that of it in the working range.
struct Areas {
  double all = 0, in_range = 0;
};

Areas areas_of(const Case& c, const Coat& coat) {
  Areas areas;
  const Eigen::VectorXd weight = node_weights(coat);
  const auto last = coat.density.rightCols(1);
  for (Index n = 0; n < weight.size(); ++n) {
    areas.all += weight(n);
    if (c.target.working_range && last(n) >= (*c.target.working_range)[0] &&
        last(n) <= (*c.target.working_range)[1])
      areas.in_range += weight(n);
  }
  return areas;
}

mesh::Point place_of(const Schedule& schedule, std::size_t part,
                     const Coat& coat, const Extreme& least) {
  if (least.to <= least.from) return mesh::Point::Zero();
  const mesh::Outline& outline = drawn_outline(schedule, part);
  const SurfaceLoop& loop = coat.surface.loops[least.of_loop];
  const PlaceOnLoop place =
      place_at(loop, outline, wrapped(least.arc, loop.length));
  return mesh::point_at(mesh::curve_of(outline, loop.loop, place.curve),
                        place.t);
}

/// As a burn map has it: burnt or worse.
std::optional<bool> burns(const Case& c, double density) {
  if (c.target.burning_current_density)
    return density > *c.target.burning_current_density;
  if (c.solution.limiting_current_density)
    return density >= kBurntShare * c.solution.limiting_current_density->value;
  return std::nullopt;
}

void judge(const Case& c, SetUpFigures& f) {
  if (!c.target.thickness) return;
  f.target_met = f.least_judged >= *c.target.thickness;
  if (f.least_judged > 0)
    f.time_needed = total_duration(c) * *c.target.thickness / f.least_judged;
}

SetUpFigures::Bands bands_of(const Schedule& schedule, const Case& c) {
  const Bands all = compute_bands(schedule, c);
  SetUpFigures::Bands b{
      all.parts.front().least_judged, {}, all.voltage, all.current, all.chance};
  double area = 0;
  for (std::size_t p = 0; p < all.parts.size(); ++p) {
    if (all.parts[p].least_judged.low < b.least_judged.low)
      b.least_judged = all.parts[p].least_judged;
    const double own = schedule.coats[p].area;
    b.mean.low += own * all.parts[p].mean.low;
    b.mean.high += own * all.parts[p].mean.high;
    area += own;
  }
  b.mean = {b.mean.low / area, b.mean.high / area};
  return b;
}

SetUpFigures::MeshErrors errors_of(const Schedule& s) {
  SetUpFigures::MeshErrors e;
  for (const MeshErrors::OfPart& part : s.errors) {
    e.thickness.min = std::max(e.thickness.min, part.least);
    e.thickness.mean = std::max(e.thickness.mean, part.mean);
    e.thickness.max = std::max(e.thickness.max, part.largest);
    e.least_judged = std::max(e.least_judged, part.least_judged);
  }
  e.voltage = s.last().solved->errors.voltage;
  e.current = s.last().solved->errors.current;
  return e;
}

}  // namespace

SetUpFigures figures_of(const LaidSteps& laid, const Case& c) {
  const Outcome& last = *laid.outcomes.back();
  SetUpFigures f;
  f.current = last.point.total_current;
  f.voltage = last.point.terminal_voltage;
  f.limited_by = last.point.limited_by;
  f.thickness = laid.spreads.front().thickness;
  f.current_density = last.parts.front().current_density_spread;
  f.least_judged = laid.spreads.front().least_judged.value;
  Areas sum;
  double volume = 0, current = 0;
  std::size_t thinnest = 0;
  for (std::size_t p = 0; p < laid.coats.size(); ++p) {
    const CoatSpread& spread = laid.spreads[p];
    const Spread& density = last.parts[p].current_density_spread;
    f.thickness = over_all(f.thickness, spread.thickness);
    f.current_density = over_all(f.current_density, density);
    if (spread.least_judged.value < f.least_judged) {
      f.least_judged = spread.least_judged.value;
      thinnest = p;
    }
    const Areas own = areas_of(c, laid.coats[p]);
    sum.all += own.all;
    sum.in_range += own.in_range;
    volume += spread.thickness.mean * laid.coats[p].area;
    current += density.mean * laid.coats[p].area;
  }
  f.thickness.mean = volume / sum.all;
  f.current_density.mean = current / sum.all;
  for (const Outcome* outcome : laid.outcomes)
    for (const PartOutcome& part : outcome->parts)
      f.largest_density =
          std::max(f.largest_density, part.current_density_spread.max);
  f.thinnest = place_of(laid.schedule, thinnest, laid.coats[thinnest],
                        laid.spreads[thinnest].least_judged);
  f.mass = volume * c.solution.metal.density;
  if (c.target.working_range) f.share_in_range = sum.in_range / sum.all;
  f.burns = burns(c, f.largest_density);
  judge(c, f);
  return f;
}

SetUpFigures figures_of(const Schedule& schedule, const Case& c, bool bands) {
  LaidSteps laid{schedule, schedule.coats, schedule.spreads, {}};
  for (const SolvedStep& step : schedule.steps)
    laid.outcomes.push_back(&step.solved->outcome);
  SetUpFigures f = figures_of(laid, c);
  if (schedule.growth) {
    double volume = 0;
    for (double each : schedule.growth->volume) volume += each;
    f.mass = volume * c.solution.metal.density;
  }
  f.probes = schedule.probe_thickness;
  f.mesh_errors = errors_of(schedule);
  f.within = schedule.within();
  if (bands) f.bands = bands_of(schedule, c);
  return f;
}

}  // namespace thinspot::solver
