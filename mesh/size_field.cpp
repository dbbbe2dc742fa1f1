#include "mesh/size_field.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numbers>

namespace thinspot::mesh {

namespace {

constexpr double pi = std::numbers::pi;

double length_of(const Grading& grading, int owner) {
  const auto k = static_cast<std::size_t>(owner);
  return owner >= 0 && k < grading.polarization_length.size()
             ? grading.polarization_length[k]
             : 0;
}

/// Over which polarization rounds off the current at a corner [m].
double length_at(const Grading& grading, const CornerPoint& c) {
  double least = std::numeric_limits<double>::infinity();
  for (int k : {0, 1})
    if (c.electrode[k]) least = std::min(least, length_of(grading, c.owner[k]));
  return std::isfinite(least) ? least : 0;
}

/// What a corner matters against a right-angled one of the part: next to
/// nothing where it hardly bends, as between the pieces of a polygon that
/// stands for a curve; a fifth where it is not the part's.
double strength(const CornerPoint& c, double lambda) {
  return std::min(1.0, 3 * (1 - lambda)) * (c.part ? 1 : 0.2);
}

/// Aims above it look at currents on the part alone, as a search does: what the
/// corners of anodes are off then hardly reaches it (measured: 4e-4 of the
/// thinnest spot of a token, for half of the mesh).
constexpr double kLoose = 4e-3;

bool fine(const Grading& grading) { return grading.tolerance < 5e-4; }

}  // namespace

double exponent(const CornerPoint& c) {
  const bool alike = c.electrode[0] == c.electrode[1];
  return (alike ? pi : pi / 2) / c.angle;
}

Point into_liquid(const BoundaryPiece& piece, double t) {
  const Point outward = outward_normal(piece.curve, t);
  return piece.wall ? Point(-outward) : outward;
}

SizeField::SizeField(const std::vector<BoundaryPiece>& pieces,
                     const std::vector<CornerPoint>& corners,
                     double liquid_extent, const Grading& grading)
    : largest_(liquid_extent / (fine(grading) ? 13 : 6)) {
  std::map<int, Outline> parts, all;
  for (const BoundaryPiece& p : pieces) {
    all[p.owner].loops.push_back({p.curve});
    if (p.part) parts[p.owner].loops.push_back({p.curve});
  }
  for (const auto& [owner, solid] : all)
    extent_[owner] = bounding_box(solid).size().maxCoeff();
  for (const auto& [owner, part] : parts)
    part_extent_ = std::max(part_extent_, bounding_box(part).size().maxCoeff());
  add_roundings(pieces, grading);
  add_corners(corners, grading);
  sources_.sort();
  add_gaps(pieces);
  sources_.sort();
}

double SizeField::operator()(const Point& x) const {
  return std::max(sources_.least_at(x, largest_), 1e-7 * largest_);
}

void SizeField::pack(Bytes& bytes) const {
  bytes.put(largest_);
  bytes.put(sources_.all().size());
  for (const SizeSource& s : sources_.all()) {
    for (const Point& p : {s.curve.from, s.curve.to}) bytes.put(p);
    for (double x : {s.curve.bulge, s.size, s.growth}) bytes.put(x);
  }
}

SizeField SizeField::unpacked(Bytes& bytes) {
  SizeField field;
  field.largest_ = bytes.take<double>();
  for (auto n = bytes.take_count(7 * sizeof(double)); n > 0; --n) {
    Curve c;
    c.from = bytes.take<Point>();
    c.to = bytes.take<Point>();
    c.bulge = bytes.take<double>();
    const auto size = bytes.take<double>();
    field.sources_.add(c, size, bytes.take<double>());
  }
  field.sources_.sort();
  return field;
}

SizeField::Fineness SizeField::fineness(double polarization_length) const {
  // Where polarization acts over less than a tenth of the part, the current
  // changes fast along a rounding (measured: growth 0.5 leaves 1e-3 there).
  const bool sharp = polarization_length < 0.08 * part_extent_;
  // Below the local element the current comes from reactions, an order less
  // accurate (measured on concentric cylinders: 6 elements a quarter leave
  // 3e-3 of it).
  const bool held = polarization_length < 0.02 * part_extent_;
  return {held, held ? 6 : 1.5, sharp ? 0.4 : 0.6};
}

void SizeField::add_roundings(const std::vector<BoundaryPiece>& pieces,
                              const Grading& grading) {
  for (const BoundaryPiece& p : pieces) {
    if (p.size > 0) {
      sources_.add(p.curve, p.size, 0.6);
      continue;
    }
    // Beside a short piece, edges of its neighbours much longer than it may
    // cut the corner between them, and Gmsh then finds no mesh at all.
    if (length(p.curve) < largest_) sources_.add(p.curve, length(p.curve), 0.5);
    const Fineness f = fineness(length_of(grading, p.owner));
    // Pieces of the part without rounding still want a few elements.
    if (p.part)
      sources_.add(p.curve,
                   part_extent_ / ((fine(grading) ? 8 : 4) * (f.held ? 2 : 1)),
                   f.growth);
    if (!is_arc(p.curve)) continue;
    const double per_quarter = (fine(grading) ? 3 : 2) * f.per_quarter;
    const double size = pi / 2 * radius(p.curve) / per_quarter;
    if (size < largest_) sources_.add(p.curve, size, f.growth);
  }
}

double SizeField::extent_at(const CornerPoint& c) const {
  double extent = 0;
  for (int k : {0, 1})
    if (c.electrode[k]) extent = std::max(extent, extent_.at(c.owner[k]));
  return extent;
}

void SizeField::add_corners(const std::vector<CornerPoint>& corners,
                            const Grading& grading) {
  for (const CornerPoint& c : corners) {
    const double lambda = exponent(c);
    if (lambda > 0.999) continue;
    if (!c.part && grading.tolerance > kLoose) continue;
    double share = grading.tolerance / strength(c, lambda);
    // Away from the part only the currents matter, and of an electrode's the
    // edge of a thin sheet carries about its thickness over its extent.
    if (!c.part) share *= std::max(1.0, extent_at(c) / c.reach);
    double size = c.reach * std::pow(std::min(share, 1.0), 1 / (2 * lambda));
    // Polarization rounds the current off below its own length, and extremes
    // are averages.
    size = std::max({size, 0.1 * length_at(grading, c),
                     10 * grading.tolerance * grading.averaging_length});
    if (c.part) size = std::min(size, 0.5 * grading.averaging_length);
    size = std::min(size, c.reach / 4);
    sources_.add({c.at, c.at, 0, ""}, size, fine(grading) ? 0.5 : 0.7);
  }
}

void SizeField::add_gaps(const std::vector<BoundaryPiece>& pieces) {
  const auto joined = [](const BoundaryPiece& a, const BoundaryPiece& b) {
    return a.start_vertex == b.start_vertex || a.start_vertex == b.end_vertex ||
           a.end_vertex == b.start_vertex || a.end_vertex == b.end_vertex;
  };
  std::vector<Box> boxes;
  for (const BoundaryPiece& p : pieces)
    boxes.push_back(bounding_box({{{p.curve}}}));
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    for (std::size_t j = 0; j < pieces.size(); ++j) {
      const BoundaryPiece &a = pieces[i], &b = pieces[j];
      if (i == j || joined(a, b) || a.size > 0 || b.size > 0) continue;
      if (distance(boxes[i], boxes[j]) >= largest_) continue;
      const double apart = distance({{{a.curve}}}, {{{b.curve}}});
      // Nearer than any feature may be small: they touch, and their corner
      // sets the size.
      if (apart >= largest_ || apart <= 1e-6 * largest_) continue;
      const double count = std::min(length(a.curve) / apart, 200.0);
      const int points = std::max(2, static_cast<int>(count));
      for (int k = 0; k <= points; ++k) {
        const double t = double(k) / points;
        const Point p = point_at(a.curve, t);
        const Foot foot = nearest(b.curve, p);
        const double size = 0.7 * foot.distance;
        if (size >= largest_ || (*this)(p) <= 1.1 * size) continue;
        // Across liquid only: the two sides of a sheet are no gap.
        const Point across = point_at(b.curve, foot.t) - p;
        if (across.dot(into_liquid(a, t)) < 0.3 * foot.distance) continue;
        sources_.add({p, p, 0, ""}, size, 0.5);
      }
    }
  }
}

}  // namespace thinspot::mesh
