#include "tests/unit/rack_result.hpp"

#include "tests/unit/sample_result.hpp"

#include <fmt/format.h>

namespace thinspot::tests {

namespace {

solver::BandedSpread scaled(const solver::BandedSpread& s, double by) {
  const auto interval = [by](const solver::Interval& i) {
    return solver::Interval{by * i.low, by * i.high};
  };
  return {{by * s.value.min, by * s.value.mean, by * s.value.max},
          interval(s.min_band),
          interval(s.mean_band),
          interval(s.max_band)};
}

}  // namespace

solver::Result rack_result() {
  solver::Result r = sample_result();
  const solver::PartResult drawn = r.parts.front();
  r.parts.clear();
  for (int copy = 1; copy <= 3; ++copy) {
    const auto index = r.section.solids.size();
    mesh::PlacedSolid solid;
    solid.spec.name = fmt::format("part {}", copy);
    solid.spec.copy = copy;
    r.section.solids.push_back(solid);
    solver::PartResult part = drawn;
    part.name = solid.spec.name;
    part.solid = index;
    part.thickness = scaled(drawn.thickness, 1.1 - 0.1 * copy);
    part.bare = {
        {"left", 0.028, 0.0302, fmt::format("under the clip top {}", copy)},
        {"upper rim", 0.0302, 0.0314,
         fmt::format("under the clip top {}", copy)}};
    if (copy == 2)
      part.bare.push_back({"left", 0.001, 0.004, "out of the liquid"});
    for (solver::SurfacePoint& p : part.surface) p.at.x() += 0.02 * (copy - 1);
    r.parts.push_back(part);
    r.clips.push_back(
        {fmt::format("top {}", copy), 10 + index, 0.02, 1e-4, 200, 250});
  }
  r.cell.current = 1.2;
  r.rack =
      solver::RackResult{3, {14.08e-6, 15.84e-6, 17.6e-6}, 9.6e-6, 28e-6, 2, 0};
  r.thieves = {{"ring", 20, 0.12, 5e-4, 240, 300}};
  r.floating = {{"old sheet", 21, 0.034, 14e-4, 31, 42, 0.12}};
  solver::Floating floating;
  floating.name = "old sheet";
  floating.solid = 21;
  floating.metal = "copper";
  r.used.floating = {floating};
  return r;
}

}  // namespace thinspot::tests
