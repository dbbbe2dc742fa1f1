#include "mesh/errors.hpp"
#include "mesh/gmsh_session.hpp"
#include "mesh/kernel.hpp"
#include "mesh/kernel_module.hpp"
#include "mesh/outline.hpp"

#include <gmsh.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

namespace thinspot::mesh {

namespace {

namespace occ = gmsh::model::occ;

/// OpenCASCADE takes arcs by three points and the shorter way: long ones are
/// given in pieces.
void add_curve(const Curve& c, int from, int to, double scale,
               std::vector<int>& tags) {
  if (!is_arc(c)) {
    tags.push_back(occ::addLine(from, to));
    return;
  }
  const Point m = centre(c) * scale;
  const int middle = occ::addPoint(m.x(), m.y(), 0);
  const int pieces = std::abs(c.bulge) > 0.6 ? 2 : 1;
  int last = from;
  for (int k = 1; k <= pieces; ++k) {
    const Point p = point_at(c, double(k) / pieces) * scale;
    const int next = k == pieces ? to : occ::addPoint(p.x(), p.y(), 0);
    tags.push_back(occ::addCircleArc(last, middle, next));
    last = next;
  }
}

int add_wire(const Loop& loop, double scale) {
  std::vector<int> points, tags;
  for (const Curve& c : loop)
    points.push_back(occ::addPoint(c.from.x() * scale, c.from.y() * scale, 0));
  for (std::size_t k = 0; k < loop.size(); ++k)
    add_curve(loop[k], points[k], points[(k + 1) % points.size()], scale, tags);
  return occ::addCurveLoop(tags);
}

/// The same loop walked the other way: the kernel takes holes, too,
/// counter-clockwise and makes wrong regions of them otherwise.
Loop reversed(const Loop& loop) {
  Loop result;
  for (auto c = loop.rbegin(); c != loop.rend(); ++c)
    result.push_back({c->to, c->from, -c->bulge, c->face});
  return result;
}

/// One surface for each outer loop, with the holes that lie inside it.
gmsh::vectorpair add_surfaces(const Outline& o, double scale) {
  gmsh::vectorpair surfaces;
  for (const Loop& outer : o.loops) {
    const Outline alone{{outer}};
    if (area(alone) < 0) continue;
    std::vector<int> wires{add_wire(outer, scale)};
    for (const Loop& hole : o.loops)
      if (area({{hole}}) < 0 && contains(alone, hole.front().from))
        wires.push_back(add_wire(reversed(hole), scale));
    surfaces.emplace_back(2, occ::addPlaneSurface(wires));
  }
  return surfaces;
}

/// Longer side of the liquid's box [m].
double extent_of(const std::vector<Outline>& outlines) {
  return bounding_box(outlines.front()).size().maxCoeff();
}

struct Named {
  int outline = 0, loop = 0, curve = 0;
};

/// Which curve of ours the three given points of a Gmsh curve lie on.
Named identify(const std::vector<Outline>& outlines,
               const std::array<Point, 3>& points) {
  Named best;
  const double none = 1e-6 * extent_of(outlines);
  double least = none;
  for (std::size_t s = 0; s < outlines.size(); ++s) {
    const Outline& o = outlines[s];
    for (std::size_t l = 0; l < o.loops.size(); ++l)
      for (std::size_t k = 0; k < o.loops[l].size(); ++k) {
        const Curve& c = o.loops[l][k];
        double worst = 0;
        for (const Point& p : points)
          worst = std::max(worst, nearest(c, p).distance);
        if (worst >= least) continue;
        least = worst;
        best = {static_cast<int>(s), static_cast<int>(l), static_cast<int>(k)};
      }
  }
  if (least == none)
    throw NoResultError(
        "the cut of the section left a boundary that belongs to nothing");
  return best;
}

Point value(int dim, int tag, const std::vector<double>& at, double scale) {
  std::vector<double> xyz;
  gmsh::model::getValue(dim, tag, at, xyz);
  return Point(xyz[0], xyz[1]) / scale;
}

CutPiece describe(int tag, const std::vector<Outline>& outlines, double scale) {
  std::vector<double> low, high;
  gmsh::model::getParametrizationBounds(1, tag, low, high);
  std::array<Point, 3> points;
  for (std::size_t k = 0; k < 3; ++k)
    points[k] = value(
        1, tag, {low[0] + (high[0] - low[0]) * (0.2 + 0.3 * double(k))}, scale);
  const auto [outline, loop, curve] = identify(outlines, points);
  const Curve& whole = outlines[static_cast<std::size_t>(outline)]
                           .loops[static_cast<std::size_t>(loop)]
                                 [static_cast<std::size_t>(curve)];
  gmsh::vectorpair ends;
  gmsh::model::getBoundary({{1, tag}}, ends, false, false);
  if (ends.size() != 2)
    throw NoResultError("the cut of the section left a curve without ends");
  double t[2];
  for (std::size_t k = 0; k < 2; ++k)
    t[k] = nearest(whole, value(0, ends[k].second, {}, scale)).t;
  // On a closed pair of arcs an end can be read as 0 or 1 of either.
  const std::size_t first = t[0] <= t[1] ? 0 : 1;
  return {0,
          outline,
          loop,
          curve,
          ends[first].second,
          ends[1 - first].second,
          t[first],
          t[1 - first]};
}

/// @param outlines  of the liquid's bounds, then of the solids
std::vector<CutPiece> cut(const std::vector<Outline>& outlines) {
  // The liquid then spans about 1000, far above OpenCASCADE's fixed tolerance
  // of 1e-7.
  const double scale = 1000 / extent_of(outlines);
  const gmsh::vectorpair tank = add_surfaces(outlines.front(), scale);
  gmsh::vectorpair solids, pieces = tank;
  for (std::size_t s = 1; s < outlines.size(); ++s)
    for (const auto& surface : add_surfaces(outlines[s], scale))
      solids.push_back(surface);
  std::vector<gmsh::vectorpair> map;
  if (!solids.empty()) occ::cut(tank, solids, pieces, map);
  occ::synchronize();
  std::vector<CutPiece> curves;
  for (const auto& [dim, surface] : pieces) {
    if (dim != 2) continue;
    gmsh::vectorpair boundary;
    gmsh::model::getBoundary({{2, surface}}, boundary, false, false);
    for (const auto& [curve_dim, tag] : boundary) {
      curves.push_back(describe(tag, outlines, scale));
      curves.back().region = surface;
    }
  }
  return curves;
}

}  // namespace

std::string cut_there(const std::string& request) {
  return in_session([&] { return packed(cut(unpacked_outlines(request))); });
}

}  // namespace thinspot::mesh
