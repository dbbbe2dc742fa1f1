#include "mesh/arc_fit.hpp"
#include "mesh/outline.hpp"
#include "mesh/outline_drawing.hpp"
#include "mesh/outline_dxf_groups.hpp"
#include "mesh/outline_packed.hpp"
#include "mesh/outline_spline.hpp"
#include "mesh/outline_units.hpp"

#include <dxflib/dl_creationadapter.h>
#include <dxflib/dl_dxf.h>
#include <fmt/format.h>

#include <cmath>
#include <locale>
#include <map>
#include <numbers>
#include <sstream>
#include <utility>

namespace thinspot::mesh {

namespace {

constexpr double pi = std::numbers::pi;

/// A section takes milliseconds.
constexpr unsigned kPatience = 10;

/// The library reads numbers by the global locale, which may want a comma.
class PlainNumbers {
 public:
  PlainNumbers() : before_(std::locale::global(std::locale::classic())) {}
  ~PlainNumbers() { std::locale::global(before_); }
  PlainNumbers(const PlainNumbers&) = delete;
  PlainNumbers& operator=(const PlainNumbers&) = delete;

 private:
  std::locale before_;
};

/// tan(sweep/4) of an arc given by its angles [rad], counter-clockwise.
double bulge_of(double from, double to) {
  double sweep = std::fmod(to - from, 2 * pi);
  if (sweep <= 0) sweep += 2 * pi;
  return std::tan(sweep / 4);
}

/// Takes the entities as the library names them one after the other.
class Entities : public DL_CreationAdapter {
 public:
  Drawing drawing;
  void finish();

  void addLine(const DL_LineData& line) override;
  void addArc(const DL_ArcData& arc) override;
  void addCircle(const DL_CircleData& circle) override;
  void addEllipse(const DL_EllipseData& ellipse) override;
  void addPolyline(const DL_PolylineData& polyline) override;
  void addVertex(const DL_VertexData& vertex) override;
  void addSpline(const DL_SplineData& spline) override;
  void addControlPoint(const DL_ControlPointData& point) override;
  void addKnot(const DL_KnotData& knot) override;
  void addFitPoint(const DL_FitPointData& point) override;

 private:
  /// Layer "0" is where everything goes that was put nowhere.
  std::string face() {
    const std::string layer = getAttributes().getLayer();
    return layer == "0" ? "" : layer;
  }
  bool in_plane(const char* what);
  void add(const Curve& piece, bool own_axes);
  void add(const ParametricCurve& curve);
  void flush();
  void flush_polyline();
  void flush_spline();

  bool mirrored_ = false;  ///< of the entity in hand: seen from behind
  std::map<std::string, int> out_of_plane_;
  struct Polyline {
    bool closed = false, mirrored = false;
    std::string face;
    std::vector<std::pair<Point, double>> vertices;
  };
  std::optional<Polyline> polyline_;
  struct PendingSpline {
    Spline spline;
    std::vector<Point> fit_points;
    bool closed = false;
    std::optional<Point> start, end;
    std::string face;
  };
  std::optional<PendingSpline> spline_;
  int guessed_ = 0;
};

/// True where the entity lies in a plane z = const, whichever side it was
/// drawn from; others are counted.
bool Entities::in_plane(const char* what) {
  double n[3];
  getExtrusion()->getDirection(n);
  const double length = std::hypot(n[0], n[1], n[2]);
  mirrored_ = n[2] < 0;
  if (length == 0) return true;
  if (std::hypot(n[0], n[1]) <= 1e-6 * length) return true;
  ++out_of_plane_[what];
  return false;
}

/// @param own_axes  given in the entity's own axes, whose x runs backwards
///                  where it is seen from behind (DXF's arbitrary axis rule)
void Entities::add(const Curve& piece, bool own_axes) {
  Curve c = piece;
  c.face = face();
  if (own_axes && mirrored_) {
    c.from.x() = -c.from.x();
    c.to.x() = -c.to.x();
    c.bulge = -c.bulge;
  }
  drawing.add(c);
}

void Entities::add(const ParametricCurve& curve) {
  for (const Curve& c : fit_arcs(curve, kMostPieces)) add(c, false);
}

void Entities::addLine(const DL_LineData& line) {
  flush();
  if (line.z1 != line.z2) {
    ++out_of_plane_["LINE"];
    return;
  }
  add({{line.x1, line.y1}, {line.x2, line.y2}, 0, ""}, false);
}

void Entities::addArc(const DL_ArcData& arc) {
  flush();
  if (!in_plane("ARC") || !(arc.radius > 0)) return;
  const double from = arc.angle1 * pi / 180, to = arc.angle2 * pi / 180;
  const auto at = [&](double angle) -> Point {
    return {arc.cx + arc.radius * std::cos(angle),
            arc.cy + arc.radius * std::sin(angle)};
  };
  add({at(from), at(to), bulge_of(from, to), ""}, true);
}

void Entities::addCircle(const DL_CircleData& circle) {
  flush();
  if (!in_plane("CIRCLE") || !(circle.radius > 0)) return;
  const Point left(circle.cx - circle.radius, circle.cy);
  const Point right(circle.cx + circle.radius, circle.cy);
  add({left, right, 1, ""}, true);
  add({right, left, 1, ""}, true);
}

void Entities::addEllipse(const DL_EllipseData& e) {
  flush();
  if (!in_plane("ELLIPSE")) return;
  const Point major(e.mx, e.my);
  // Centre and axis are given in the drawing's axes; the parameter runs
  // counter-clockwise as seen from the side that it was drawn on.
  Point minor = e.ratio * Point(-e.my, e.mx);
  if (mirrored_) minor = -minor;
  if (!(major.norm() > 0) || !(minor.norm() > 0)) return;
  // Both may have counted round and round.
  const double from = std::fmod(e.angle1, 2 * pi);
  double sweep = e.angle2 - e.angle1;
  if (!(sweep > 1e-9)) sweep = std::fmod(e.angle2, 2 * pi) - from;
  while (sweep <= 1e-9) sweep += 2 * pi;
  add(ellipse_curve({e.cx, e.cy}, major, minor, from,
                    from + std::min(sweep, 2 * pi)));
}

void Entities::addPolyline(const DL_PolylineData& polyline) {
  flush();
  if (!in_plane("POLYLINE")) return;
  polyline_ = Polyline{};
  polyline_->closed = (polyline.flags & 1) != 0;
  polyline_->mirrored = mirrored_;
  polyline_->face = face();
}

void Entities::addVertex(const DL_VertexData& vertex) {
  if (!polyline_) return;
  polyline_->vertices.push_back({{vertex.x, vertex.y}, vertex.bulge});
}

void Entities::addSpline(const DL_SplineData& spline) {
  flush();
  spline_ = PendingSpline{};
  spline_->spline.degree = static_cast<int>(spline.degree);
  spline_->closed = (spline.flags & 1) != 0;
  spline_->face = face();
  const Point start(spline.tangentStartX, spline.tangentStartY);
  const Point end(spline.tangentEndX, spline.tangentEndY);
  if (start.norm() > 0) spline_->start = start;
  if (end.norm() > 0) spline_->end = end;
}

void Entities::addControlPoint(const DL_ControlPointData& point) {
  if (!spline_) return;
  spline_->spline.points.emplace_back(point.x, point.y);
  spline_->spline.weights.push_back(point.w);
}

void Entities::addKnot(const DL_KnotData& knot) {
  if (spline_) spline_->spline.knots.push_back(knot.k);
}

void Entities::addFitPoint(const DL_FitPointData& point) {
  if (spline_) spline_->fit_points.emplace_back(point.x, point.y);
}

void Entities::flush_polyline() {
  const Polyline line = std::move(*polyline_);
  polyline_.reset();
  const std::size_t n = line.vertices.size();
  for (std::size_t k = 0; k < (line.closed || n == 0 ? n : n - 1); ++k) {
    const auto& [from, bulge] = line.vertices[k];
    Curve c{from, line.vertices[(k + 1) % n].first, bulge, line.face};
    if (line.mirrored)
      c = {{-c.from.x(), c.from.y()}, {-c.to.x(), c.to.y()}, -c.bulge, c.face};
    drawing.add(c);
  }
}

void Entities::flush_spline() {
  const PendingSpline s = std::move(*spline_);
  spline_.reset();
  const bool by_points = s.spline.points.empty();
  if (by_points) ++guessed_;
  const ParametricCurve curve =
      by_points ? curve_through(s.fit_points, s.closed, s.start, s.end)
                : spline_curve(s.spline);
  for (Curve c : fit_arcs(curve, kMostPieces)) {
    c.face = s.face;
    drawing.add(c);
  }
}

void Entities::flush() {
  if (polyline_) flush_polyline();
  if (spline_) flush_spline();
}

void Entities::finish() {
  flush();
  std::string list;
  for (const auto& [what, count] : out_of_plane_)
    list +=
        fmt::format("{}{} {}", list.empty() ? "left out: " : ", ", count, what);
  if (!list.empty()) drawing.notes.push_back(list + " not in the x-y plane");
  if (guessed_ > 0)
    drawing.notes.push_back(
        fmt::format("{} SPLINE given by the points on it alone: what lies "
                    "between them is a guess",
                    guessed_));
}

}  // namespace

Drawing parsed_dxf(std::string_view text) {
  const DxfGroups groups = read_dxf_groups(text);
  Entities entities;
  entities.drawing.notes = groups.notes;
  {
    const PlainNumbers plain;
    std::istringstream stream(groups.text);
    DL_Dxf().in(stream, &entities);
  }
  entities.finish();
  Drawing drawing = std::move(entities.drawing);
  if (groups.insunits.value_or(0) != 0) {
    drawing.metres_per_unit = metres_of_insunits(*groups.insunits);
    if (!drawing.metres_per_unit)
      drawing.notes.push_back(
          fmt::format("the drawing's unit ($INSUNITS {}) is not known here",
                      *groups.insunits));
  }
  return drawing;
}

Drawing read_dxf_drawing(std::string_view text) {
  return read_apart([&] { return parsed_dxf(text); }, "dxflib", kPatience,
                    "a simpler DXF, saved anew: the section alone");
}

}  // namespace thinspot::mesh
