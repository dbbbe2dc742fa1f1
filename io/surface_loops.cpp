#include "io/surface_loops.hpp"

#include <optional>

namespace thinspot::io {

namespace {

using solver::PartResult;
using solver::Result;
using solver::SurfacePoint;

/// Where the walk round a loop is cut open: before this point, the axis of an
/// axisymmetric section lies between it and the one before.
/// @returns nothing where the loop is closed
std::optional<std::size_t> cut_of(const LoopOfPart& loop,
                                  const Result& result) {
  if (result.section.cut != mesh::Cut::axisymmetric) return std::nullopt;
  const std::size_t count = loop.points.size();
  const double on_axis = 1e-9 * result.section.tank.width;
  std::optional<std::size_t> cut;
  double longest = -1;
  for (std::size_t k = 0; k < count; ++k) {
    const mesh::Point& here = loop.points[k]->at;
    const mesh::Point& before = loop.points[(k + count - 1) % count]->at;
    if (here.x() > on_axis || before.x() > on_axis) continue;
    // Several points may lie on the axis: the step along it is the long one.
    const double step = (here - before).norm();
    if (step > longest) {
      longest = step;
      cut = k;
    }
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
