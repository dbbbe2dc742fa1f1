#include "mesh/rounded_polygon.hpp"

#include "mesh/errors.hpp"

#include <fmt/format.h>

#include <cmath>

namespace thinspot::mesh {

namespace {

struct Rounding {
  Point begin, end;
  double bulge = 0;
  double setback = 0;  ///< length that it takes from each of its edges
};

Rounding round_off(const Point& before, const Corner& corner,
                   const Point& after) {
  const Point in = (corner.at - before).normalized();
  const Point out = (after - corner.at).normalized();
  const double turn =
      std::atan2(in.x() * out.y() - in.y() * out.x(), in.dot(out));
  Rounding r;
  r.setback = corner.radius * std::abs(std::tan(turn / 2));
  r.begin = corner.at - r.setback * in;
  r.end = corner.at + r.setback * out;
  r.bulge = corner.radius > 0 ? std::tan(turn / 4) : 0;
  return r;
}

}  // namespace

Loop rounded_polygon(const std::vector<Corner>& corners,
                     const std::string& radius_key) {
  const std::size_t n = corners.size();
  std::vector<Rounding> roundings;
  for (std::size_t k = 0; k < n; ++k)
    roundings.push_back(round_off(corners[(k + n - 1) % n].at, corners[k],
                                  corners[(k + 1) % n].at));
  std::vector<bool> gone(n);
  for (std::size_t k = 0; k < n; ++k) {
    Rounding& here = roundings[k];
    Rounding& next = roundings[(k + 1) % n];
    const double edge = (corners[(k + 1) % n].at - corners[k].at).norm();
    const double left = edge - here.setback - next.setback;
    if (left < -1e-9 * edge)
      throw InputError(
          radius_key,
          fmt::format("roundings of {:.4g} mm do not fit an edge of {:.4g} mm",
                      1e3 * (here.setback + next.setback) / 2, 1e3 * edge),
          fmt::format("at most {:.4g} mm", 1e3 * edge / 2));
    if (left > 1e-9 * edge) continue;
    // The edge vanishes: both ends become one point, halfway, so that what is
    // alike left and right stays so to the last digit.
    here.end = next.begin = 0.5 * (here.end + next.begin);
    gone[k] = true;
  }
  Loop loop;
  for (std::size_t k = 0; k < n; ++k) {
    const Rounding& here = roundings[k];
    if (here.setback > 0)
      loop.push_back({here.begin, here.end, here.bulge, corners[k].arc_face});
    if (!gone[k])
      loop.push_back(
          {here.end, roundings[(k + 1) % n].begin, 0, corners[k].edge_face});
  }
  return loop;
}

}  // namespace thinspot::mesh
