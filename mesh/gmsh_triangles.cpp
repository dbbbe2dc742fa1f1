#include "mesh/gmsh_triangles.hpp"

#include "mesh/child_process.hpp"
#include "mesh/errors.hpp"
#include "mesh/gmsh_session.hpp"

#include <gmsh.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <vector>

namespace thinspot::mesh {

namespace {

namespace geo = gmsh::model::geo;
using Tags = std::vector<std::size_t>;

/// A piece of the boundary as Gmsh is told of it.
struct Piece {
  Point from, to;
  double bulge;
  int start, end;  ///< vertices
  int region;
};

/// The pieces in Gmsh's built-in kernel, whose curves are quicker to walk than
/// OpenCASCADE's.
class GmshModel {
 public:
  GmshModel(const std::vector<Piece>& pieces, double scale)
      : pieces_(pieces), scale_(scale), curves_(pieces.size()) {
    for (std::size_t k = 0; k < pieces.size(); ++k) add(k);
    std::map<int, std::vector<std::size_t>> regions;
    for (std::size_t k = 0; k < pieces.size(); ++k)
      regions[pieces[k].region].push_back(k);
    for (auto& [region, all] : regions) {
      std::vector<int> loops;
      while (!all.empty()) loops.push_back(geo::addCurveLoop(next_loop(all)));
      surfaces_.push_back(geo::addPlaneSurface(loops));
    }
    geo::synchronize();
  }

  const std::vector<int>& surfaces() const { return surfaces_; }
  /// Of a piece: one or, of a long arc, two.
  const std::vector<int>& curves(std::size_t piece) const {
    return curves_[piece];
  }

 private:
  int point(const Point& p) {
    return geo::addPoint(scale_ * p.x(), scale_ * p.y(), 0);
  }

  int vertex(int number, const Point& p) {
    const auto [entry, is_new] = vertices_.try_emplace(number, 0);
    if (is_new) entry->second = point(p);
    return entry->second;
  }

  void add(std::size_t k) {
    const Piece& p = pieces_[k];
    const int from = vertex(p.start, p.from), to = vertex(p.end, p.to);
    const Curve curve{p.from, p.to, p.bulge, "", false};
    if (!is_arc(curve)) {
      curves_[k] = {geo::addLine(from, to)};
      return;
    }
    // Gmsh draws arcs the shorter way: long ones are given in halves.
    const int middle = point(centre(curve));
    if (std::abs(p.bulge) <= 0.6) {
      curves_[k] = {geo::addCircleArc(from, middle, to)};
      return;
    }
    const int half = point(point_at(curve, 0.5));
    curves_[k] = {geo::addCircleArc(from, middle, half),
                  geo::addCircleArc(half, middle, to)};
  }

  /// Takes a closed chain of pieces out of those that are left.
  std::vector<int> next_loop(std::vector<std::size_t>& left) const {
    std::vector<int> loop;
    const int first = pieces_[left.front()].start;
    int at = first;
    do {
      const auto next = std::find_if(left.begin(), left.end(), [&](auto k) {
        return pieces_[k].start == at || pieces_[k].end == at;
      });
      if (next == left.end())
        throw NoResultError("the liquid's boundary is not closed");
      const Piece& p = pieces_[*next];
      std::vector<int> tags = curves_[*next];
      const bool forward = p.start == at;
      if (!forward) {
        std::reverse(tags.begin(), tags.end());
        for (int& tag : tags) tag = -tag;
      }
      loop.insert(loop.end(), tags.begin(), tags.end());
      at = forward ? p.end : p.start;
      left.erase(next);
    } while (at != first);
    return loop;
  }

  const std::vector<Piece>& pieces_;
  double scale_;
  std::map<int, int> vertices_;
  std::vector<std::vector<int>> curves_;
  std::vector<int> surfaces_;
};

/// Model units per metre: the liquid then spans about 1000, far above Gmsh's
/// fixed tolerance of 1e-8.
double scale_of(const std::vector<Piece>& pieces) {
  Outline all{{{}}};
  for (const Piece& p : pieces)
    all.loops.front().push_back({p.from, p.to, p.bulge, "", false});
  return 1000 / bounding_box(all).size().maxCoeff();
}

/// An edge of the boundary, and on which piece it lies.
struct EdgeOfPiece {
  std::size_t from, to, piece;
};

std::string mesh_here(const std::string& request) {
  Bytes in(request);
  const auto pieces = in.take_all<Piece>();
  const SizeField size = SizeField::unpacked(in);
  const auto attempt = in.take<Attempt>();
  const GmshSession session;
  const double scale = scale_of(pieces);
  const GmshModel model(pieces, scale);
  gmsh::model::mesh::setSizeCallback([&](int, int, double x, double y, double) {
    return attempt.share * scale * size(Point(x, y) / scale);
  });
  gmsh::option::setNumber("Mesh.Algorithm", attempt.algorithm);
  gmsh::model::mesh::generate(2);

  Bytes out;
  Tags tags;
  std::vector<double> xyz, parameters;
  gmsh::model::mesh::getNodes(tags, xyz, parameters, -1, -1, false, false);
  for (double& x : xyz) x /= scale;
  out.put_all(tags);
  out.put_all(xyz);
  Tags all_corners;
  for (int surface : model.surfaces()) {
    Tags elements, corners;
    gmsh::model::mesh::getElementsByType(2, elements, corners, surface);
    all_corners.insert(all_corners.end(), corners.begin(), corners.end());
  }
  out.put_all(all_corners);
  std::vector<EdgeOfPiece> edges;
  for (std::size_t k = 0; k < pieces.size(); ++k)
    for (int curve : model.curves(k)) {
      Tags elements, ends;
      gmsh::model::mesh::getElementsByType(1, elements, ends, curve);
      for (std::size_t e = 0; e + 1 < ends.size(); e += 2)
        edges.push_back({ends[e], ends[e + 1], k});
    }
  out.put_all(edges);
  return out.text();
}

/// Where Gmsh finds no mesh it throws out of a parallel region, which ends a
/// program on the spot.
std::string mesh_elsewhere(const std::string& request) {
  constexpr unsigned seconds = 60;
  static Child mesher(mesh_here, "the mesher", seconds);
  return mesher.ask(request);
}

}  // namespace

RawTriangles gmsh_triangles(const Liquid& liquid, const SizeField& size,
                            const Attempt& attempt) {
  std::vector<Piece> pieces;
  for (const LiquidCurve& c : liquid.curves)
    pieces.push_back({c.piece.curve.from, c.piece.curve.to, c.piece.curve.bulge,
                      c.piece.start_vertex, c.piece.end_vertex, c.region});
  Bytes request;
  request.put_all(pieces);
  size.pack(request);
  request.put(attempt);
  Bytes answer(mesh_elsewhere(request.text()));

  RawTriangles raw;
  const auto tags = answer.take_all<std::size_t>();
  const auto xyz = answer.take_all<double>();
  for (std::size_t k = 0; k < tags.size(); ++k)
    raw.nodes[tags[k]] = Point(xyz.at(3 * k), xyz.at(3 * k + 1));
  raw.corners = answer.take_all<std::size_t>();
  for (const EdgeOfPiece& e : answer.take_all<EdgeOfPiece>()) {
    const LiquidCurve& c = liquid.curves.at(e.piece);
    raw.edges.push_back({e.from, e.to, c.owner, c.loop, c.curve});
  }
  return raw;
}

}  // namespace thinspot::mesh
