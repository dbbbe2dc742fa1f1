#include "mesh/errors.hpp"
#include "mesh/gmsh_session.hpp"
#include "mesh/kernel.hpp"
#include "mesh/kernel_module.hpp"
#include "mesh/millimetres.hpp"
#include "mesh/outline.hpp"

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

/// The pieces in Gmsh's built-in kernel, whose curves are quicker to walk than
/// OpenCASCADE's.
class GmshModel {
 public:
  GmshModel(const std::vector<MeshPiece>& pieces, double scale)
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
    const MeshPiece& p = pieces_[k];
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
        throw NoResultError("the liquid's boundary is not closed near " +
                            in_mm(pieces_[left.front()].from));
      const MeshPiece& p = pieces_[*next];
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

  const std::vector<MeshPiece>& pieces_;
  double scale_;
  std::map<int, int> vertices_;
  std::vector<std::vector<int>> curves_;
  std::vector<int> surfaces_;
};

/// Model units per metre: the liquid then spans about 1000, far above Gmsh's
/// fixed tolerance of 1e-8.
double scale_of(const std::vector<MeshPiece>& pieces) {
  Outline all{{{}}};
  for (const MeshPiece& p : pieces)
    all.loops.front().push_back({p.from, p.to, p.bulge, "", false});
  return 1000 / bounding_box(all).size().maxCoeff();
}

}  // namespace

std::string mesh_there(const std::string& request) {
  const auto [pieces, size, attempt] = unpacked_mesh_request(request);
  const GmshSession session;
  const double scale = scale_of(pieces);
  const GmshModel model(pieces, scale);
  gmsh::model::mesh::setSizeCallback(
      [&size = size, share = attempt.share, scale](int, int, double x, double y,
                                                   double) {
        return share * scale * size(Point(x, y) / scale);
      });
  gmsh::option::setNumber("Mesh.Algorithm", attempt.algorithm);
  gmsh::model::mesh::generate(2);

  MeshAnswer answer;
  std::vector<double> parameters;
  gmsh::model::mesh::getNodes(answer.tags, answer.xyz, parameters, -1, -1,
                              false, false);
  for (double& x : answer.xyz) x /= scale;
  for (int surface : model.surfaces()) {
    Tags elements, corners;
    gmsh::model::mesh::getElementsByType(2, elements, corners, surface);
    answer.corners.insert(answer.corners.end(), corners.begin(), corners.end());
  }
  for (std::size_t k = 0; k < pieces.size(); ++k)
    for (int curve : model.curves(k)) {
      Tags elements, ends;
      gmsh::model::mesh::getElementsByType(1, elements, ends, curve);
      for (std::size_t e = 0; e + 1 < ends.size(); e += 2)
        answer.edges.push_back({ends[e], ends[e + 1], k});
    }
  return packed(answer);
}

}  // namespace thinspot::mesh
