#include "mesh/arc_fit.hpp"
#include "mesh/errors.hpp"
#include "mesh/gmsh_session.hpp"
#include "mesh/kernel.hpp"
#include "mesh/kernel_module.hpp"
#include "mesh/outline.hpp"
#include "mesh/outline_drawing.hpp"
#include "mesh/outline_packed.hpp"

#include <fmt/format.h>
#include <gmsh.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace thinspot::mesh {

namespace {

namespace model = gmsh::model;

/// Lengths below this share of the drawing are none.
constexpr double kFlat = 1e-6;

struct Range {
  double low, high;
};

Range parameters(int edge) {
  std::vector<double> low, high;
  model::getParametrizationBounds(1, edge, low, high);
  return {low.at(0), high.at(0)};
}

Eigen::Vector3d value(int edge, double t) {
  std::vector<double> at;
  model::getValue(1, edge, {t}, at);
  return {at.at(0), at.at(1), at.at(2)};
}

Point velocity(int edge, double t) {
  std::vector<double> d;
  model::getDerivative(1, edge, {t}, d);
  return {d.at(0), d.at(1)};
}

/// Heights of a few points of an edge.
Range heights(int edge) {
  const Range t = parameters(edge);
  Range z{value(edge, t.low).z(), value(edge, t.low).z()};
  for (double share : {0.19, 0.5, 0.77, 1.0}) {
    const double here = value(edge, std::lerp(t.low, t.high, share)).z();
    z.low = std::min(z.low, here);
    z.high = std::max(z.high, here);
  }
  return z;
}

ParametricCurve curve_of_edge(int edge) {
  const Range t = parameters(edge);
  ParametricCurve curve;
  curve.at = [edge](double s) -> Point { return value(edge, s).head<2>(); };
  curve.velocity = [edge](double s) { return velocity(edge, s); };
  // Where a spline changes its formula is not told: looked at closely, with
  // steps that fall on the knots of one that has them evenly.
  constexpr int steps = 48;
  for (int k = 0; k <= steps; ++k)
    curve.knots.push_back(std::lerp(t.low, t.high, double(k) / steps));
  return curve;
}

void add_edge(Drawing& drawing, int edge) {
  std::string type;
  model::getType(1, edge, type);
  const Range t = parameters(edge);
  const Point from = value(edge, t.low).head<2>();
  const Point to = value(edge, t.high).head<2>();
  if (type == "Line") return drawing.add(Curve{from, to, 0, ""});
  if (type != "Circle") {
    for (const Curve& c : fit_arcs(curve_of_edge(edge), kMostPieces))
      drawing.add(c);
    return;
  }
  // The parameter of a circle is the angle. In halves: it may be a whole one.
  const Point middle = value(edge, 0.5 * (t.low + t.high)).head<2>();
  const Point along = velocity(edge, t.low), chord = middle - from;
  const bool left = along.x() * chord.y() - along.y() * chord.x() > 0;
  const double half = std::tan((t.high - t.low) / 8) * (left ? 1 : -1);
  if (t.high - t.low <= 3.2)
    return drawing.add(Curve{from, to, std::tan(2 * std::atan(half)), ""});
  drawing.add(Curve{from, middle, half, ""});
  drawing.add(Curve{middle, to, half, ""});
}

/// Tags of the entities of a dimension that bound nothing of a higher one.
std::vector<int> free_entities(int dim) {
  gmsh::vectorpair entities;
  model::getEntities(entities, dim);
  std::vector<int> result;
  for (const auto& [d, tag] : entities) {
    std::vector<int> up, down;
    model::getAdjacencies(d, tag, up, down);
    if (up.empty()) result.push_back(tag);
  }
  return result;
}

std::vector<int> edges_of(int face) {
  gmsh::vectorpair boundary;
  model::getBoundary({{2, face}}, boundary, false, false, false);
  std::vector<int> edges;
  for (const auto& [dim, tag] : boundary) edges.push_back(tag);
  return edges;
}

double extent_of_all() {
  double low[3], high[3];
  model::getBoundingBox(-1, -1, low[0], low[1], low[2], high[0], high[1],
                        high[2]);
  return std::max({high[0] - low[0], high[1] - low[1], high[2] - low[2]});
}

/// Sets of edges that lie in the one plane z = const of the first of them.
class FlatSets {
 public:
  explicit FlatSets(double extent) : near_(kFlat * extent) {}
  bool take(const std::vector<int>& edges) {
    if (edges.empty()) return false;
    const double height = taken_.empty() ? heights(edges.front()).low : height_;
    for (int edge : edges) {
      const Range z = heights(edge);
      if (std::max(std::abs(z.low - height), std::abs(z.high - height)) > near_)
        return false;
    }
    height_ = height;
    taken_.push_back(edges);
    return true;
  }
  const std::vector<std::vector<int>>& taken() const { return taken_; }

 private:
  double near_, height_ = 0;
  std::vector<std::vector<int>> taken_;
};

void note(Drawing& drawing, std::size_t count, const char* what) {
  if (count > 0)
    drawing.notes.push_back(fmt::format("left out: {} {}", count, what));
}

Drawing drawing_of_model() {
  Drawing drawing;
  FlatSets sets(extent_of_all());
  const std::size_t bodies = free_entities(3).size();
  std::size_t faces = 0, edges = 0;
  for (int face : free_entities(2)) {
    std::string type;
    model::getType(2, face, type);
    if (type != "Plane" || !sets.take(edges_of(face))) ++faces;
  }
  const std::vector<int> loose = free_entities(1);
  if (sets.taken().empty()) {
    // Loose edges close together: one set, of those in one plane.
    FlatSets flat(extent_of_all());
    for (int edge : loose)
      if (!flat.take({edge})) ++edges;
    std::vector<int> all;
    for (const std::vector<int>& one : flat.taken()) all.push_back(one.front());
    sets.take(all);
  } else {
    edges = loose.size();
  }
  note(drawing, bodies, "solid bodies");
  note(drawing, faces, "faces that do not lie in the section's plane");
  note(drawing, edges, "edges");
  if (sets.taken().empty())
    throw InputError(
        "file",
        bodies > 0
            ? fmt::format("holds solid bodies ({}) and no section", bodies)
            : std::string("holds no face or edges in a plane z = const"),
        kWantedDrawing);
  for (const std::vector<int>& set : sets.taken()) {
    drawing.sets.emplace_back();
    for (int edge : set) add_edge(drawing, edge);
  }
  return drawing;
}

Drawing import_drawing(const std::string& file, bool step) {
  const GmshSession session;
  // What a STEP file says of its unit is turned into millimetres.
  gmsh::option::setString("Geometry.OCCTargetUnit", "MM");
  gmsh::vectorpair imported;
  model::occ::importShapes(file, imported, false, step ? "step" : "brep");
  model::occ::synchronize();
  Drawing drawing = drawing_of_model();
  if (step) drawing.metres_per_unit = 1e-3;
  return drawing;
}

}  // namespace

std::string drawing_there(const std::string& file, bool step) {
  return packed_by([&] { return import_drawing(file, step); }, kWantedDrawing);
}

}  // namespace thinspot::mesh
