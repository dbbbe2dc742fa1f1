#include "solver/kept_result.hpp"

#include "solver/place_words.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

namespace {

using mesh::Curve;
using mesh::Loop;
using mesh::Point;

/// Curves from one point to the next; none where both are at one place.
void join(Loop& loop, const PartResult& part, const SurfacePoint& a,
          const SurfacePoint& b, bool on_axis) {
  if ((b.at - a.at).squaredNorm() == 0) return;
  const auto name = [&](const SurfacePoint& p) {
    return on_axis ? std::string("axis")
                   : part.faces[static_cast<std::size_t>(p.face)].name;
  };
  const bool masked = !a.wetted && !b.wetted;
  if (a.face == b.face || on_axis) {
    loop.push_back({a.at, b.at, 0, name(a), masked});
    return;
  }
  const Point middle = 0.5 * (a.at + b.at);
  loop.push_back({a.at, middle, 0, name(a), masked});
  loop.push_back({middle, b.at, 0, name(b), masked});
}

}  // namespace

bool has_bands(const KeptResult& kept) {
  for (const PartResult& part : kept.result.parts)
    for (const SurfacePoint& p : part.surface)
      if (p.thickness_band.high > p.thickness_band.low) return true;
  return false;
}

mesh::Outline outline_through(const PartResult& part, mesh::Cut cut) {
  mesh::Outline outline;
  const auto& s = part.surface;
  double farthest = 0;
  for (const SurfacePoint& p : s)
    farthest = std::max(farthest, std::abs(p.at.x()));
  const double near = 1e-6 * farthest;
  const auto on_axis = [&](const SurfacePoint& a, const SurfacePoint& b) {
    return cut == mesh::Cut::axisymmetric && std::abs(a.at.x()) <= near &&
           std::abs(b.at.x()) <= near;
  };
  for (std::size_t first = 0, k = 1; k <= s.size(); ++k) {
    if (k < s.size() && s[k].loop == s[first].loop) continue;
    const auto loop = static_cast<std::size_t>(s[first].loop);
    if (outline.loops.size() <= loop) outline.loops.resize(loop + 1);
    for (std::size_t n = first; n < k; ++n) {
      const SurfacePoint& next = s[n + 1 < k ? n + 1 : first];
      join(outline.loops[loop], part, s[n], next, on_axis(s[n], next));
    }
    first = k;
  }
  return outline;
}

void surround(mesh::Section& section) {
  mesh::Box box{Point::Constant(1e300), Point::Constant(-1e300)};
  for (const mesh::PlacedSolid& solid : section.solids) {
    const mesh::Box own = mesh::bounding_box(solid.outline);
    box.low = box.low.cwiseMin(own.low);
    box.high = box.high.cwiseMax(own.high);
  }
  const Point room = Point::Constant(box.size().maxCoeff());
  const Point a = box.low - room, c = box.high + room;
  const Point b(c.x(), a.y()), d(a.x(), c.y());
  section.liquid_bounds.loops = {{{a, b, 0, "wall"},
                                  {b, c, 0, "wall"},
                                  {c, d, 0, "surface"},
                                  {d, a, 0, "wall"}}};
}

std::string kept_place_in_words(const KeptResult& kept, std::size_t part,
                                std::size_t point) {
  const PartResult& p = kept.result.parts[part];
  const mesh::Section& section = kept.result.section;
  const mesh::Outline& outline = section.solids[p.solid].outline;
  const SurfacePoint& at = p.surface[point];
  const auto loop = static_cast<std::size_t>(at.loop);
  const Loop& chain = outline.loops[loop];
  // Of the two curves that meet here the one of the point's own face.
  const std::string& face = p.faces[static_cast<std::size_t>(at.face)].name;
  for (std::size_t k = 0; k < chain.size(); ++k)
    if (chain[k].face == face && chain[k].from == at.at)
      return place_in_words(section, outline, at.loop, static_cast<int>(k), 0);
  for (std::size_t k = 0; k < chain.size(); ++k)
    if (chain[k].face == face && chain[k].to == at.at)
      return place_in_words(section, outline, at.loop, static_cast<int>(k), 1);
  return "on " + face_in_words(face);
}

}  // namespace thinspot::solver
