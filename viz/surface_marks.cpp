#include "viz/surface_marks.hpp"

#include "viz/coating.hpp"
#include "viz/palette.hpp"

#include <algorithm>
#include <limits>

namespace thinspot::viz {

namespace {

using solver::PartResult;
using solver::SurfacePoint;

/// What is nearer than this share of the part's perimeter touches.
constexpr double touching = 1e-5;

const mesh::Curve* nearest_curve(const mesh::Loop& loop, const Point& p) {
  const mesh::Curve* best = nullptr;
  double least = std::numeric_limits<double>::max();
  for (const mesh::Curve& c : loop) {
    const double d = mesh::nearest(c, p).distance;
    if (d >= least) continue;
    least = d;
    best = &c;
  }
  return best;
}

double distance_to(const mesh::Outline& outline, const Point& p) {
  double least = std::numeric_limits<double>::max();
  for (const mesh::Loop& loop : outline.loops)
    if (const mesh::Curve* c = nearest_curve(loop, p))
      least = std::min(least, mesh::nearest(*c, p).distance);
  return least;
}

/// The solver's own words for the place, where it has any.
/// @param round  length of the loop, which a stretch may run over the end of
std::string words_of(const PartResult& part, int face, double arc,
                     double round) {
  for (const solver::Bare& bare : part.bare)
    if (bare.face == part.faces[static_cast<std::size_t>(face)].name &&
        !bare.why.empty() &&
        ((bare.from <= arc && arc <= bare.to) ||
         (bare.from <= arc + round && arc + round <= bare.to)))
      return bare.why;
  return "";
}

/// What touches the part at a place that is wet but takes no current.
std::string what_touches(const mesh::Section& section, std::size_t part,
                         const Point& p, double near) {
  for (std::size_t k = 0; k < section.solids.size(); ++k) {
    if (k == part) continue;
    const mesh::PlacedSolid& solid = section.solids[k];
    if (mesh::contains(solid.outline, p) ||
        distance_to(solid.outline, p) < near)
      return "under " + solid.spec.name;
  }
  if (distance_to(section.liquid_bounds, p) < near) return "against the wall";
  return "no current gets there";
}

/// Bare between two neighbours: why.
BareStretch reason(const solver::Result& result, const PartResult& part,
                   const SurfaceLoop& loop, const SurfacePoint& a,
                   const SurfacePoint& b) {
  const mesh::Outline& outline = result.section.solids[part.solid].outline;
  const Point middle = 0.5 * (a.at + b.at);
  BareStretch found;
  const mesh::Curve* curve =
      nearest_curve(outline.loops[static_cast<std::size_t>(loop.loop)], middle);
  const double near = touching * loop.perimeter;
  found.lacquered = curve != nullptr && curve->masked;
  found.dry = !found.lacquered &&
              !mesh::contains(result.section.liquid_bounds, middle) &&
              distance_to(result.section.liquid_bounds, middle) > near;
  const SurfacePoint& bare = a.wetted ? b : a;
  const double arc = b.arc > a.arc ? 0.5 * (a.arc + b.arc) : a.arc;
  found.why = words_of(part, bare.face, arc, loop.perimeter);
  if (!found.why.empty()) return found;
  if (found.lacquered)
    found.why = "lacquered";
  else if (found.dry)
    found.why = "out of the liquid";
  else
    found.why = what_touches(result.section, part.solid, middle, near);
  return found;
}

void line_along(Svg& svg, Point from, Point to, double width,
                const char* stroke) {
  svg.line(from, to, {.stroke = stroke, .width = width});
}

}  // namespace

std::vector<BareStretch> bare_stretches(const solver::Result& result,
                                        const PartResult& part) {
  std::vector<BareStretch> found;
  const auto& s = part.surface;
  for (const SurfaceLoop& loop : surface_loops(result, part)) {
    const std::size_t end = loop.closed ? loop.last : loop.last - 1;
    bool on = false, known = false;
    for (std::size_t k = loop.first; k < end; ++k) {
      const std::size_t next = k + 1 < loop.last ? k + 1 : loop.first;
      const double step = (s[next].at - s[k].at).norm();
      // A dry stretch begins where the wet one ends.
      if (step < 1e-9 * loop.perimeter) continue;
      if ((s[k].wetted && s[next].wetted) || !neighbours(s[k], s[next], loop)) {
        on = false;
        continue;
      }
      BareStretch piece = reason(result, part, loop, s[k], s[next]);
      piece.points = {k, next};
      // The last piece before the wet surface belongs to what lies behind it.
      const bool rim = s[k].wetted || s[next].wetted;
      if (!on) {
        found.push_back(std::move(piece));
        known = !rim;
      } else if (rim || piece.why == found.back().why) {
        found.back().points.push_back(next);
      } else if (!known) {
        piece.points.insert(piece.points.begin(), found.back().points.begin(),
                            found.back().points.end() - 1);
        found.back() = std::move(piece);
        known = true;
      } else {
        found.push_back(std::move(piece));
      }
      on = true;
    }
  }
  return found;
}

bool has_lacquer(const mesh::Section& section) {
  for (const mesh::PlacedSolid& solid : section.solids)
    for (const mesh::Loop& loop : solid.outline.loops)
      for (const mesh::Curve& c : loop)
        if (c.masked) return true;
  return false;
}

void draw_lacquer(Svg& svg, const mesh::Outline& outline, const Frame& frame,
                  const std::string& clip, bool mirrored) {
  const PathText d = curves_path(
      outline, frame, [](const mesh::Curve& c) { return c.masked; }, mirrored);
  svg.path(d, {.stroke = colour::lacquer, .width = 6, .clip = clip});
  svg.path(d, {.stroke = "#fff", .width = 3.2, .dash = "5 1.6", .clip = clip});
}

void draw_contacts(Svg& svg, const solver::Result& result,
                   const PartResult& part, const Frame& frame,
                   const std::string& clip) {
  for (const BareStretch& stretch : bare_stretches(result, part)) {
    if (!stretch.contact()) continue;
    std::vector<Point> points;
    for (const std::size_t k : stretch.points)
      points.push_back(frame.page(part.surface[k].at));
    PathText d;
    d.chain(simplified(points, 0.2), false);
    svg.path(d, {.stroke = colour::ink, .width = 5, .clip = clip});
    svg.path(d, {.stroke = "#fff", .width = 2.6, .clip = clip});
  }
}

void draw_lacquer_sign(Svg& svg, Point centre) {
  const Point half(11, 0);
  line_along(svg, centre - half, centre + half, 6, colour::lacquer);
  svg.line(centre - half, centre + half,
           {.stroke = "#fff", .width = 3.2, .dash = "5 1.6"});
}

void draw_contact_sign(Svg& svg, Point centre) {
  const Point half(11, 0);
  line_along(svg, centre - half, centre + half, 5, colour::ink);
  line_along(svg, centre - half, centre + half, 2.6, "#fff");
}

}  // namespace thinspot::viz
