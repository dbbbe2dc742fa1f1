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

/// Reasons at a point of the material, wherever it is in each step.
class Reasons {
 public:
  Reasons(const mesh::Outline& drawn, const std::vector<Standing>& steps)
      : drawn_(drawn), steps_(steps) {}

  Reason at(const mesh::Place& place) const {
    Reason all;
    std::vector<std::string> told;
    for (const Standing& s : steps_) {
      const mesh::PlacedSolid& there = s.section->solids[s.solid];
      const mesh::Place p = s.backwards ? mesh::flipped(place, drawn_) : place;
      const double look =
          kLook *
          mesh::bounding_box(s.section->liquid_bounds).size().maxCoeff();
      const Reason reason =
          reason_at(*s.section, s.solid,
                    mesh::curve_of(there.outline, p.loop, p.curve), p.t, look);
      all.contact = all.contact || reason.contact;
      if (std::find(told.begin(), told.end(), reason.why) != told.end())
        continue;
      told.push_back(reason.why);
      all.why += (all.why.empty() ? "" : ", then ") + reason.why;
    }
    return all;
  }

 private:
  const mesh::Outline& drawn_;
  const std::vector<Standing>& steps_;
};

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
void look_along(const Reasons& reasons, const Curve& curve, mesh::Place place,
                double start, Stretch where, std::vector<DryStretch>& all) {
  if (curve.face == "axis") return;
  const double size = mesh::length(curve);
  const auto reason = [&](double arc) {
    place.t = (arc - start) / size;
    return reasons.at(place);
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

std::vector<DryStretch> dry_stretches(const mesh::Outline& drawn,
                                      const std::vector<Standing>& steps,
                                      const SurfaceLoop& loop) {
  std::vector<DryStretch> all;
  const Reasons reasons(drawn, steps);
  const mesh::Loop& chain = drawn.loops[static_cast<std::size_t>(loop.loop)];
  for (const Stretch& dry : complement(wetted(loop), loop.length)) {
    // The rounding left between a stretch and the next is no stretch.
    if (dry.to - dry.from < 1e-8 * loop.length) continue;
    struct Cut {
      Stretch where;
      double start;
      std::size_t curve;
    };
    std::vector<Cut> cuts;
    for (std::size_t k = 0; k < chain.size(); ++k)
      for (double turn : {-loop.length, 0.0, loop.length}) {
        const double start = loop.curve_start[k] + turn;
        const double from = std::max(dry.from, start);
        const double to = std::min(dry.to, start + mesh::length(chain[k]));
        if (to - from > 1e-9 * loop.length)
          cuts.push_back({{from, to}, start, k});
      }
    std::sort(cuts.begin(), cuts.end(), [](const Cut& a, const Cut& b) {
      return a.where.from < b.where.from;
    });
    for (const Cut& cut : cuts)
      look_along(reasons, chain[cut.curve],
                 {loop.loop, static_cast<int>(cut.curve), 0}, cut.start,
                 cut.where, all);
  }
  return all;
}

std::vector<DryStretch> dry_stretches(const mesh::Section& section,
                                      std::size_t solid,
                                      const SurfaceLoop& loop) {
  return dry_stretches(section.solids[solid].outline,
                       {{&section, solid, false}}, loop);
}

}  // namespace thinspot::solver
