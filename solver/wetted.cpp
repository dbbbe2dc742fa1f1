#include "solver/wetted.hpp"

#include "mesh/liquid.hpp"

#include <numbers>

namespace thinspot::solver {

namespace {

using mesh::Curve;
using mesh::Point;

constexpr int kSamples = 40;

/// A curve's share of what a closed chain of curves encloses, by the divergence
/// theorem [m2]; turned about the axis [m3].
double enclosed(const Curve& c, mesh::Cut cut) {
  double sum = 0;
  for (const SurfaceSample& s : samples_of({c}, cut))
    // The measure of an axisymmetric sample holds 2 pi r already.
    sum += 0.5 * s.measure *
           (cut == mesh::Cut::axisymmetric ? s.at.x() * s.normal.x()
                                           : s.at.dot(s.normal));
  return sum;
}

}  // namespace

WettedSection find_wetted(const mesh::Section& section) {
  const mesh::Liquid liquid = mesh::cut_liquid(section);
  WettedSection wetted;
  wetted.of_solid.resize(section.solids.size());
  wetted.notes = liquid.notes;
  for (const mesh::LiquidCurve& c : liquid.curves) {
    // Walls have the liquid inside, solids outside.
    wetted.liquid +=
        (c.piece.wall ? 1 : -1) * enclosed(c.piece.curve, section.cut);
    if (!c.piece.electrode || c.owner < 0) continue;
    Wetted& w = wetted.of_solid[static_cast<std::size_t>(c.owner)];
    w.pieces.push_back(c.piece.curve);
    for (const SurfaceSample& s : samples_of({c.piece.curve}, section.cut))
      w.measure += s.measure;
  }
  return wetted;
}

std::vector<SurfaceSample> samples_of(const mesh::Loop& pieces, mesh::Cut cut) {
  std::vector<SurfaceSample> samples;
  for (const Curve& c : pieces) {
    const double share = mesh::length(c) / kSamples;
    for (int k = 0; k < kSamples; ++k) {
      const double t = (k + 0.5) / kSamples;
      SurfaceSample s{mesh::point_at(c, t), mesh::outward_normal(c, t), share,
                      &c};
      if (cut == mesh::Cut::axisymmetric)
        s.measure *= 2 * std::numbers::pi * s.at.x();
      samples.push_back(s);
    }
  }
  return samples;
}

Point nearest_point(const mesh::Loop& pieces, const Point& p) {
  return mesh::nearest(mesh::Outline{{pieces}}, p).at;
}

}  // namespace thinspot::solver
