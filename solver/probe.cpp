#include "solver/probe.hpp"

#include <algorithm>
#include <limits>

namespace thinspot::solver {

namespace {

/// The window around an arc, kept inside the wetted stretch that holds it.
Extreme window_at(const SurfaceLoop& loop, double arc, double window) {
  for (const Stretch& s : wetted(loop))
    for (double a : {arc, arc + loop.length}) {
      if (a < s.from || a > s.to) continue;
      const double half = 0.5 * std::min(window, s.to - s.from);
      const double middle = std::clamp(a, s.from + half, s.to - half);
      return {middle, 0, middle - half, middle + half, 0};
    }
  return {arc, 0, 0, 0, 0};
}

}  // namespace

ProbeOutcome read_probe(const Model& model, const Probe& probe, double window,
                        const Eigen::VectorXd& density) {
  const Surface& surface = model.surfaces.front();
  const mesh::Outline& outline = solid_of(model, surface).outline;
  ProbeOutcome result;
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t l = 0; l < surface.loops.size(); ++l) {
    const SurfaceLoop& loop = surface.loops[l];
    const auto& chain = outline.loops[static_cast<std::size_t>(loop.loop)];
    for (std::size_t k = 0; k < chain.size(); ++k) {
      const mesh::Foot foot = mesh::nearest(chain[k], probe.at);
      if (foot.distance >= least) continue;
      least = foot.distance;
      result.at = mesh::point_at(chain[k], foot.t);
      result.face = chain[k].face;
      const double arc = arc_of(loop, outline, static_cast<int>(k), foot.t);
      result.window = window_at(loop, arc, window);
      result.window.of_loop = l;
    }
  }
  Extreme& w = result.window;
  if (w.to > w.from)
    w.value =
        Profile(surface.loops[w.of_loop], density).integral(w.from, w.to) /
        (w.to - w.from);
  return result;
}

}  // namespace thinspot::solver
