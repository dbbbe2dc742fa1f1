#include "mesh/outline_loops.hpp"

#include "mesh/crossing.hpp"
#include "mesh/errors.hpp"
#include "mesh/outline_chain.hpp"

#include <algorithm>

namespace thinspot::mesh {

namespace {

Loop reversed(const Loop& loop) {
  Loop result;
  for (auto c = loop.rbegin(); c != loop.rend(); ++c)
    result.push_back({c->to, c->from, -c->bulge, c->face});
  return result;
}

bool in_box(const Box& box, const Point& p) {
  return (p.array() >= box.low.array()).all() &&
         (p.array() <= box.high.array()).all();
}

/// All on one line, there and back.
bool is_flat(const Loop& loop, double tolerance) {
  Curve line{loop.front().from, loop.front().from, 0, ""};
  for (const Curve& c : loop)
    if ((c.from - line.from).norm() > (line.to - line.from).norm())
      line.to = c.from;
  return std::all_of(loop.begin(), loop.end(), [&](const Curve& c) {
    return nearest(line, c.from).distance <= tolerance &&
           nearest(line, point_at(c, 0.5)).distance <= tolerance;
  });
}

}  // namespace

Outline nest(std::vector<Loop> loops, double tolerance,
             const std::string& unit) {
  Outline all{std::move(loops)};
  for (Loop& loop : all.loops) {
    if (is_flat(loop, tolerance))
      throw InputError("file",
                       "holds a loop that encloses no area, at " +
                           place_text(loop.front().from, unit),
                       "loops with something inside");
    if (area({{loop}}) < 0) loop = reversed(loop);
  }
  if (const auto at = self_crossing(all, tolerance))
    throw InputError("file",
                     "crosses or touches itself at " + place_text(*at, unit),
                     "loops that stay clear of themselves and each other");
  std::vector<Box> boxes;
  for (const Loop& loop : all.loops) boxes.push_back(bounding_box({{loop}}));
  std::vector<bool> hole(all.loops.size(), false);
  for (std::size_t i = 0; i < all.loops.size(); ++i)
    for (std::size_t j = 0; j < all.loops.size(); ++j) {
      const Point& p = all.loops[i].front().from;
      if (i != j && in_box(boxes[j], p) && contains({{all.loops[j]}}, p))
        hole[i] = !hole[i];
    }
  for (std::size_t i = 0; i < all.loops.size(); ++i) {
    if (hole[i]) all.loops[i] = reversed(all.loops[i]);
    for (Curve& c : all.loops[i])
      if (c.face.empty()) c.face = hole[i] ? "hole" : "outline";
  }
  return all;
}

}  // namespace thinspot::mesh
