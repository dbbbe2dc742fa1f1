#include "tests/unit/kept_samples.hpp"

#include "io/kept_summary.hpp"
#include "io/kept_surface.hpp"
#include "io/summary_json.hpp"
#include "io/tables_csv.hpp"
#include "io/words.hpp"

#include <Eigen/Geometry>

#include <algorithm>

namespace thinspot::tests {

namespace {

/// Outline and surroundings anew, after points were changed.
void settle(solver::KeptResult& kept) {
  mesh::Section& section = kept.result.section;
  section.solids.resize(1);
  section.solids[0].outline =
      solver::outline_through(kept.result.parts[0], section.cut);
  solver::surround(section);
}

}  // namespace

std::string summary_text(const solver::Result& result) {
  return io::summary_json(result, io::Words{},
                          {{"surface.csv", io::surface_csv(result).size()}});
}

solver::KeptResult kept(const solver::Result& result, const std::string& name) {
  solver::KeptResult k = io::read_summary(summary_text(result)).kept;
  io::read_surface(io::surface_csv(result), k);
  k.name = name;
  return k;
}

solver::KeptResult bar(int each, const std::string& name) {
  solver::KeptResult k;
  k.name = name;
  k.result.used.title = "A bar";
  k.result.steps.emplace_back().duration = 600;
  solver::PartResult& part = k.result.parts.emplace_back();
  part.name = "part";
  for (const char* face : {"lower", "right", "upper", "left"}) {
    part.faces.emplace_back();
    part.faces.back().name = face;
  }
  struct Leg {
    mesh::Point from, way;
    int length, face;
  };
  const Leg legs[] = {{{1, 0}, {1, 0}, 1, 0},
                      {{2, 0}, {0, 1}, 10, 1},
                      {{2, 10}, {-1, 0}, 2, 2},
                      {{0, 10}, {0, -1}, 10, 3},
                      {{0, 0}, {1, 0}, 1, 0}};
  double arc = 0;
  for (const Leg& leg : legs)
    for (int n = 0; n < leg.length * each; ++n) {
      solver::SurfacePoint p;
      const double along = static_cast<double>(n) / each;
      p.at = 1e-3 * (leg.from + along * leg.way);
      p.normal = {leg.way.y(), -leg.way.x()};
      p.arc = 1e-3 * (arc + along);
      p.face = leg.face;
      p.weight = 1e-6 / each;
      p.thickness = 1e-6 * (10 + arc + along);
      p.current_density = 100 + arc + along;
      part.surface.push_back(p);
      if (n + 1 == leg.length * each) arc += leg.length;
    }
  part.area = 24e-6;
  part.thickness.value = {10e-6, 22e-6, 34e-6};
  settle(k);
  return k;
}

solver::KeptResult moved(solver::KeptResult k, double turn,
                         const mesh::Point& shift, std::size_t begin) {
  auto& s = k.result.parts[0].surface;
  const double length = s.back().arc + (s.front().at - s.back().at).norm();
  std::rotate(s.begin(), s.begin() + static_cast<std::ptrdiff_t>(begin),
              s.end());
  const double start = s.front().arc;
  const Eigen::Rotation2Dd rotation(turn);
  for (solver::SurfacePoint& p : s) {
    p.at = rotation * p.at + shift;
    p.normal = rotation * p.normal;
    p.arc += p.arc < start ? length - start : -start;
  }
  settle(k);
  return k;
}

solver::Reading reading(solver::Reading::Of of, double value,
                        double plus_minus) {
  solver::Reading r;
  r.of = of;
  r.value = value;
  r.plus_minus = plus_minus;
  r.line = 7;
  return r;
}

}  // namespace thinspot::tests
