#include "tests/peers/liquid_border.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <stdexcept>

namespace thinspot::tests {

namespace {

using mesh::BoundaryEdge;
using mesh::Curve;

/// Between two fractions of a curve, walked from the first to the second.
Curve walked(const Curve& c, double from, double to) {
  if (from < to) return mesh::piece_of(c, from, to);
  Curve piece = mesh::piece_of(c, to, from);
  std::swap(piece.from, piece.to);
  piece.bulge = -piece.bulge;
  return piece;
}

/// Which curve an edge lies on, and where: solids' edges know, those of tank,
/// level and axis are looked for.
Border of_edge(const solver::Model& model, const BoundaryEdge& e) {
  Border b;
  if (e.owner >= 0) {
    b.solid = e.owner;
    b.loop = e.loop;
    b.curve = e.curve;
    b.t_from = e.t_from;
    b.t_to = e.t_to;
    const auto& each = model.response.electrodes().each;
    for (std::size_t k = 0; k < each.size() && !e.masked; ++k)
      if (each[k].solid == static_cast<std::size_t>(e.owner))
        b.electrode = static_cast<int>(k);
    return b;
  }
  const mesh::Outline& bounds = model.section.liquid_bounds;
  const auto at = [&](std::size_t k) -> mesh::Point {
    return model.mesh.nodes.col(e.nodes[k]);
  };
  const mesh::OutlineFoot foot = mesh::nearest(bounds, at(2));
  b.loop = static_cast<int>(foot.loop);
  b.curve = static_cast<int>(foot.curve);
  const Curve& c = mesh::curve_of(bounds, b.loop, b.curve);
  b.t_from = mesh::nearest(c, at(0)).t;
  b.t_to = mesh::nearest(c, at(1)).t;
  return b;
}

bool continues(const Border& a, const Border& b) {
  return a.solid == b.solid && a.loop == b.loop && a.curve == b.curve &&
         a.electrode == b.electrode && std::abs(a.t_to - b.t_from) < 1e-9;
}

void draw(const solver::Model& model, Border& b) {
  const mesh::Outline& outline =
      b.solid < 0
          ? model.section.liquid_bounds
          : model.section.solids[static_cast<std::size_t>(b.solid)].outline;
  b.line = walked(mesh::curve_of(outline, b.loop, b.curve), b.t_from, b.t_to);
}

/// The edges of one closed chain, joined where they lie on one curve.
std::vector<Border> joined(const std::vector<Border>& edges) {
  std::vector<Border> chain;
  for (const Border& e : edges)
    if (!chain.empty() && continues(chain.back(), e))
      chain.back().t_to = e.t_to;
    else
      chain.push_back(e);
  // The walk began somewhere on a curve, not at its end.
  if (chain.size() > 1 && continues(chain.back(), chain.front())) {
    chain.front().t_from = chain.back().t_from;
    chain.pop_back();
  }
  return chain;
}

}  // namespace

std::vector<Border> liquid_borders(const solver::Model& model) {
  const std::vector<BoundaryEdge>& edges = model.mesh.boundary;
  std::multimap<int, std::size_t> starting;  // node -> edge
  for (std::size_t k = 0; k < edges.size(); ++k)
    starting.emplace(edges[k].nodes[0], k);
  std::vector<Border> all;
  while (!starting.empty()) {
    std::vector<Border> chain;
    const int first = starting.begin()->first;
    int node = first;
    do {
      const auto next = starting.find(node);
      if (next == starting.end())
        throw std::runtime_error("the liquid's boundary does not close");
      const BoundaryEdge& e = edges[next->second];
      starting.erase(next);
      chain.push_back(of_edge(model, e));
      node = e.nodes[1];
    } while (node != first);
    for (Border& b : joined(chain)) {
      draw(model, b);
      all.push_back(b);
    }
  }
  return all;
}

void cut_at(std::vector<Border>& borders, const Place& place) {
  for (std::size_t k = 0; k < borders.size(); ++k) {
    const Border b = borders[k];
    if (b.solid != place.solid || b.loop != place.loop ||
        b.curve != place.curve)
      continue;
    const double share = (place.t - b.t_from) / (b.t_to - b.t_from);
    const double size = mesh::length(b.line);
    const double near = 1e-9;  // [m]: no place is told apart from an end there
    if (share * size < near || (1 - share) * size < near) continue;
    borders[k].t_to = place.t;
    borders[k].line = mesh::piece_of(b.line, 0, share);
    Border rest = b;
    rest.t_from = place.t;
    rest.line = mesh::piece_of(b.line, share, 1);
    // One and the same point, whatever the rounding.
    rest.line.from = borders[k].line.to;
    borders.insert(borders.begin() + static_cast<std::ptrdiff_t>(k) + 1, rest);
    return;
  }
}

}  // namespace thinspot::tests
