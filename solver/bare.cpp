#include "solver/bare.hpp"

#include <algorithm>

namespace thinspot::solver {

namespace {

using mesh::Curve;
using mesh::Point;
using mesh::Role;

/// How far off the metal one looks for what covers it, over the tank's size:
/// beyond what counts as touching there, below any feature.
constexpr double kLook = 1e-6;

struct Reason {
  std::string why;
  bool contact = false;
  bool operator==(const Reason&) const = default;
};

Reason covered_by(const mesh::Solid& solid) {
  const std::string key = mesh::key_without_copy(solid);
  const std::string name = key.substr(key.find('.') + 1);
  switch (solid.role) {
    case Role::clip: return {"under the clip " + name, true};
    case Role::shield: return {"under the shield " + name, false};
    default: return {"touches " + solid.name, true};
  }
}

Reason reason_at(const mesh::Section& section, std::size_t solid,
                 const Curve& curve, double t, double look) {
  if (curve.masked) return {"under stop-off lacquer", false};
  const Point p =
      mesh::point_at(curve, t) + look * mesh::outward_normal(curve, t);
  for (std::size_t s = 0; s < section.solids.size(); ++s)
    if (s != solid && mesh::contains(section.solids[s].outline, p))
      return covered_by(section.solids[s].spec);
  if (section.cut != mesh::Cut::plan && p.y() > section.tank.level)
    return {"out of the liquid", false};
  if (!mesh::contains(section.liquid_bounds, p))
    return {"against the wall", false};
  return {"in a pool without current", false};
}

/// Adds a stretch, to the last one where it goes on for the same reason.
void add(std::vector<DryStretch>& all, double from, double to,
         const std::string& face, const Reason& reason) {
  if (!(to > from)) return;
  if (!all.empty() && all.back().face == face && all.back().why == reason.why &&
      std::abs(all.back().where.to - from) < 1e-12 * (1 + from))
    all.back().where.to = to;
  else
    all.push_back({{from, to}, face, reason.why, reason.contact});
}

/// One curve's share of a dry stretch, by arc; `start` is the curve's.
void look_along(const mesh::Section& section, std::size_t solid,
                const Curve& curve, double start, Stretch where, double look,
                std::vector<DryStretch>& all) {
  if (curve.face == "axis") return;
  const double size = mesh::length(curve);
  const auto reason = [&](double arc) {
    return reason_at(section, solid, curve, (arc - start) / size, look);
  };
  const int steps = 64;
  const double step = (where.to - where.from) / steps;
  double begin = where.from, last = where.from + step / 2;
  Reason now = reason(last);
  for (int k = 1; k < steps; ++k) {
    const double here = where.from + (k + 0.5) * step;
    const Reason next = reason(here);
    if (!(next == now)) {
      double low = last, high = here;
      for (int halving = 0; halving < 40; ++halving) {
        const double middle = 0.5 * (low + high);
        (reason(middle) == now ? low : high) = middle;
      }
      add(all, begin, high, curve.face, now);
      begin = high;
      now = next;
    }
    last = here;
  }
  add(all, begin, where.to, curve.face, now);
}

}  // namespace

std::vector<DryStretch> dry_stretches(const mesh::Section& section,
                                      std::size_t solid,
                                      const SurfaceLoop& loop) {
  std::vector<DryStretch> all;
  const double look =
      kLook * mesh::bounding_box(section.liquid_bounds).size().maxCoeff();
  const mesh::Outline& outline = section.solids[solid].outline;
  const mesh::Loop& chain = outline.loops[static_cast<std::size_t>(loop.loop)];
  for (const Stretch& dry : complement(wetted(loop), loop.length)) {
    // The rounding left between a stretch and the next is no stretch.
    if (dry.to - dry.from < 1e-8 * loop.length) continue;
    struct Cut {
      Stretch where;
      double start;
      const Curve* curve;
    };
    std::vector<Cut> cuts;
    for (std::size_t k = 0; k < chain.size(); ++k)
      for (double turn : {-loop.length, 0.0, loop.length}) {
        const double start = loop.curve_start[k] + turn;
        const double from = std::max(dry.from, start);
        const double to = std::min(dry.to, start + mesh::length(chain[k]));
        if (to - from > 1e-9 * loop.length)
          cuts.push_back({{from, to}, start, &chain[k]});
      }
    std::sort(cuts.begin(), cuts.end(), [](const Cut& a, const Cut& b) {
      return a.where.from < b.where.from;
    });
    for (const Cut& cut : cuts)
      look_along(section, solid, *cut.curve, cut.start, cut.where, look, all);
  }
  return all;
}

}  // namespace thinspot::solver
