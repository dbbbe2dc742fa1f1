#include "io/surface_loops.hpp"

#include <algorithm>
#include <limits>
#include <optional>

namespace thinspot::io {

namespace {

using solver::PartResult;
using solver::Result;
using solver::SurfacePoint;

/// Whether a loop of the part as drawn runs along the axis.
bool runs_along_axis(const LoopOfPart& loop, const Result& result) {
  const std::size_t solid = loop.owner->solid;
  const auto number = static_cast<std::size_t>(loop.points.front()->loop);
  if (solid >= result.section.solids.size()) return false;
  const mesh::Outline& outline = result.section.solids[solid].outline;
  if (number >= outline.loops.size()) return false;
  const mesh::Loop& curves = outline.loops[number];
  return std::any_of(curves.begin(), curves.end(),
                     [](const mesh::Curve& c) { return c.face == "axis"; });
}

/// Where the walk round a loop is cut open: before this point, the axis of an
/// axisymmetric section lies between it and the one before.
/// @returns nothing where the loop is closed
std::optional<std::size_t> cut_of(const LoopOfPart& loop,
                                  const Result& result) {
  if (result.section.cut != mesh::Cut::axisymmetric) return std::nullopt;
  const std::size_t count = loop.points.size();
  // Wetted points lie on the axis exactly; under lacquer the last ones stop
  // short of it.
  const double on_axis = 1e-9 * result.section.tank.width;
  double nearest = runs_along_axis(loop, result)
                       ? std::numeric_limits<double>::infinity()
                       : on_axis;
  std::optional<std::size_t> cut;
  double longest = -1;
  for (std::size_t k = 0; k < count; ++k) {
    const mesh::Point& here = loop.points[k]->at;
    const mesh::Point& before = loop.points[(k + count - 1) % count]->at;
    const double away = std::max(std::max(here.x(), before.x()), on_axis);
    // Several points may lie on the axis: the step along it is the long one.
    const double step = (here - before).norm();
    if (away > nearest || (away == nearest && step <= longest)) continue;
    nearest = away;
    longest = step;
    cut = k;
  }
  return cut;
}

}  // namespace

std::vector<LoopOfPart> loops_of(const Result& result) {
  std::vector<LoopOfPart> loops;
  int first_face = 0;
  for (std::size_t k = 0; k < result.parts.size(); ++k) {
    const PartResult& part = result.parts[k];
    for (const SurfacePoint& p : part.surface) {
      if (loops.empty() || loops.back().owner != &part ||
          loops.back().points.front()->loop != p.loop)
        loops.push_back({static_cast<int>(k), first_face, &part, {}});
      loops.back().points.push_back(&p);
    }
    first_face += static_cast<int>(part.faces.size());
  }
  return loops;
}

std::vector<std::size_t> walk_along(const LoopOfPart& loop,
                                    const Result& result) {
  const std::size_t count = loop.points.size();
  const std::optional<std::size_t> cut = cut_of(loop, result);
  std::vector<std::size_t> walk;
  for (std::size_t k = 0; k < (cut ? count : count + 1); ++k)
    walk.push_back((cut.value_or(0) + k) % count);
  return walk;
}

}  // namespace thinspot::io
