#include "viz/chart_scales.hpp"

#include "viz/coating.hpp"

#include <algorithm>

namespace thinspot::viz {

namespace {

constexpr double between_loops = 18;

}  // namespace

UnrolledScale::UnrolledScale(const solver::Result& result,
                             const solver::PartResult& part, double left,
                             double right) {
  double whole = 0;
  const std::vector<SurfaceLoop> surface = surface_loops(result, part);
  loops_.resize(result.section.solids[part.solid].outline.loops.size());
  for (const SurfaceLoop& loop : surface) {
    loops_[static_cast<std::size_t>(loop.loop)].length = loop.length;
    whole += loop.length;
  }
  const double gaps =
      between_loops *
      static_cast<double>(std::max<std::size_t>(surface.size(), 1) - 1);
  double at = left;
  for (Piece& piece : loops_) {
    if (piece.length == 0) continue;  // an edge of a hole that is closed
    piece.left = at;
    piece.right = at + piece.length / whole * (right - left - gaps);
    at = piece.right + between_loops;
  }
}

double UnrolledScale::page(int loop, double arc) const {
  const Piece& piece = loops_[static_cast<std::size_t>(loop)];
  return piece.left +
         std::clamp(arc / piece.length, 0.0, 1.0) * (piece.right - piece.left);
}

std::vector<FaceRun> face_runs(const solver::PartResult& part,
                               const UnrolledScale& along) {
  std::vector<FaceRun> runs;
  const auto& s = part.surface;
  for (std::size_t k = 0; k < s.size(); ++k) {
    const double x = along.page(s[k].loop, s[k].arc);
    const bool new_loop = k == 0 || s[k].loop != s[k - 1].loop;
    if (new_loop || s[k].face != s[k - 1].face) {
      if (new_loop && k > 0)
        runs.back().right =
            along.loops()[static_cast<std::size_t>(s[k - 1].loop)].right;
      const double start =
          new_loop ? along.loops()[static_cast<std::size_t>(s[k].loop)].left
                   : 0.5 * (x + runs.back().right);
      if (!new_loop) runs.back().right = start;
      runs.push_back({s[k].face, start, x, new_loop});
    }
    runs.back().right = std::max(runs.back().right, x);
  }
  if (!runs.empty())
    runs.back().right =
        along.loops()[static_cast<std::size_t>(s.back().loop)].right;
  return runs;
}

}  // namespace thinspot::viz
