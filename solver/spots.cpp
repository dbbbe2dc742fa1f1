#include "solver/spots.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace thinspot::solver {

namespace {

using mesh::Curve;
using mesh::Loop;
using mesh::Point;

/// The run of neighbouring curves of one face that holds a place.
struct FaceRun {
  double length = 0;  ///< of the run [m]
  double along = 0;   ///< of the place within it [m]
  double bend = 0;    ///< angle by which the run turns [rad]
  Point first = Point::Zero(), last = Point::Zero();
};

FaceRun run_of(const Loop& loop, int curve, double t) {
  const auto n = static_cast<int>(loop.size());
  const auto at = [&](int k) -> const Curve& {
    return loop[static_cast<std::size_t>(((k % n) + n) % n)];
  };
  const std::string& face = at(curve).face;
  int first = curve, last = curve;
  while (first > curve - n + 1 && at(first - 1).face == face) --first;
  while (last < first + n - 1 && at(last + 1).face == face) ++last;
  FaceRun run;
  for (int k = first; k <= last; ++k) {
    const double size = mesh::length(at(k));
    if (k < curve) run.along += size;
    if (k == curve) run.along += t * size;
    run.length += size;
    run.bend += std::abs(4 * std::atan(at(k).bulge));
  }
  run.first = at(first).from;
  run.last = at(last).to;
  return run;
}

/// "left", "upper right" … for a direction.
std::string towards(const Point& way, mesh::Cut cut) {
  const bool plan = cut == mesh::Cut::plan;
  const std::string up = plan ? "far" : "upper";
  const std::string down = plan ? "near" : "lower";
  static constexpr double tilt = 0.4142;  // tan 22.5 deg: eight directions
  const double x = way.x(), y = way.y();
  std::string words;
  if (std::abs(y) > tilt * std::abs(x)) words = y > 0 ? up : down;
  if (std::abs(x) > tilt * std::abs(y))
    words += (words.empty() ? "" : " ") + std::string(x > 0 ? "right" : "left");
  return words;
}

bool says_where(const std::string& face) {
  return face == "left" || face == "right";
}

}  // namespace

std::string place_in_words(const mesh::Section& section,
                           const mesh::Outline& outline, int loop, int curve,
                           double t) {
  const Loop& chain = outline.loops[static_cast<std::size_t>(loop)];
  const Curve& here = chain[static_cast<std::size_t>(curve)];
  std::string name = "the " + here.face;
  if (says_where(here.face)) name += " face";
  const FaceRun run = run_of(chain, curve, t);
  // All round: only the direction tells one place from another.
  if (run.bend > 1.5 * std::numbers::pi) {
    const Point n = mesh::outward_normal(here, t);
    return towards(n, section.cut) + " of " + name;
  }
  const double share = run.along / run.length;
  const bool axisymmetric = section.cut == mesh::Cut::axisymmetric;
  const double x = mesh::point_at(here, t).x();
  if (axisymmetric && std::abs(x) < 1e-9 * run.length + 1e-12)
    return "middle of " + name;
  if (share > 0.35 && share < 0.65 &&
      !(axisymmetric && x > 0.1 * run.length &&
        std::abs(run.first.x()) < 1e-12))
    return "middle of " + name;
  const Point from_middle =
      mesh::point_at(here, t) - 0.5 * (run.first + run.last);
  const std::string where =
      axisymmetric && std::abs(run.first.x() - run.last.x()) >
                          std::abs(run.first.y() - run.last.y())
          ? "outer"
          : towards(from_middle, section.cut);
  const bool at_end = share < 0.08 || share > 0.92;
  return where + (at_end ? " edge of " : " part of ") + name;
}

std::vector<Extreme> standing_out(const std::vector<Extreme>& averages,
                                  double sign, double prominence, bool closed) {
  const auto n = static_cast<int>(averages.size());
  if (n == 0) return {};
  const auto height = [&](int k) {
    return sign * averages[static_cast<std::size_t>(((k % n) + n) % n)].value;
  };
  // How far the ground falls before it rises above the top again.
  const auto drop = [&](int top, int way) {
    double lowest = height(top);
    for (int step = 1; step < n; ++step) {
      const int k = top + way * step;
      if (!closed && (k < 0 || k >= n)) return height(top) - lowest + 1e300;
      if (height(k) > height(top)) return height(top) - lowest;
      lowest = std::min(lowest, height(k));
    }
    return 1e300;
  };
  std::vector<std::pair<double, Extreme>> found;
  for (int k = 0; k < n; ++k) {
    const double before = closed || k > 0 ? height(k - 1) : -1e300;
    const double after = closed || k + 1 < n ? height(k + 1) : -1e300;
    if (height(k) < before || height(k) <= after) continue;
    if (std::min(drop(k, -1), drop(k, +1)) < prominence) continue;
    found.emplace_back(height(k), averages[static_cast<std::size_t>(k)]);
  }
  std::sort(found.begin(), found.end(),
            [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<Extreme> result;
  for (const auto& [height_there, extreme] : found) result.push_back(extreme);
  return result;
}

}  // namespace thinspot::solver
