#include "mesh/outline_chain.hpp"

#include "mesh/errors.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <map>
#include <numeric>
#include <utility>

namespace thinspot::mesh {

namespace {

/// Every end of every piece, 2 k for the start of piece k and 2 k + 1 for its
/// end, with the first of those ends that lie at the same point.
class Ends {
 public:
  Ends(const std::vector<Curve>& pieces, double tolerance);
  const Point& at(std::size_t end) const { return points_[end]; }
  std::size_t node(std::size_t end) const;

 private:
  void join(std::size_t a, std::size_t b);

  std::vector<Point> points_;
  std::vector<std::size_t> first_;  ///< union-find, the least number leads
};

Ends::Ends(const std::vector<Curve>& pieces, double tolerance)
    : first_(2 * pieces.size()) {
  for (const Curve& c : pieces) {
    points_.push_back(c.from);
    points_.push_back(c.to);
  }
  std::iota(first_.begin(), first_.end(), std::size_t{0});
  std::vector<std::size_t> by_x = first_;
  std::sort(by_x.begin(), by_x.end(), [&](std::size_t a, std::size_t b) {
    return points_[a].x() < points_[b].x();
  });
  for (std::size_t i = 0; i < by_x.size(); ++i)
    for (std::size_t j = i + 1; j < by_x.size(); ++j) {
      const Point apart = points_[by_x[j]] - points_[by_x[i]];
      if (apart.x() > tolerance) break;
      if (apart.norm() <= tolerance) join(by_x[i], by_x[j]);
    }
  for (std::size_t k = 0; k < first_.size(); ++k) first_[k] = node(k);
}

std::size_t Ends::node(std::size_t end) const {
  while (first_[end] != end) end = first_[end];
  return end;
}

void Ends::join(std::size_t a, std::size_t b) {
  a = node(a);
  b = node(b);
  first_[std::max(a, b)] = std::min(a, b);
}

/// The pieces that are left, with their ends moved onto their nodes.
struct Graph {
  std::vector<Curve> pieces;
  std::vector<std::pair<std::size_t, std::size_t>> nodes;  ///< of each piece
  std::map<std::size_t, std::vector<std::size_t>> at_node;
  std::map<std::size_t, Point> place;
};

Graph join_ends(const std::vector<Curve>& pieces, double tolerance) {
  const Ends ends(pieces, tolerance);
  Graph graph;
  std::map<std::pair<std::size_t, std::size_t>, std::vector<Point>> known;
  for (std::size_t k = 0; k < pieces.size(); ++k) {
    const std::size_t a = ends.node(2 * k), b = ends.node(2 * k + 1);
    if (a == b) continue;
    const Point middle = point_at(pieces[k], 0.5);
    std::vector<Point>& others = known[std::minmax(a, b)];
    if (std::any_of(others.begin(), others.end(), [&](const Point& other) {
          return (other - middle).norm() <= tolerance;
        }))
      continue;
    others.push_back(middle);
    Curve piece = pieces[k];
    piece.from = ends.at(a);
    piece.to = ends.at(b);
    graph.at_node[a].push_back(graph.pieces.size());
    graph.at_node[b].push_back(graph.pieces.size());
    graph.place[a] = piece.from;
    graph.place[b] = piece.to;
    graph.pieces.push_back(piece);
    graph.nodes.emplace_back(a, b);
  }
  return graph;
}

void refuse_open_ends(const Graph& graph, double tolerance,
                      const std::string& unit) {
  std::vector<Point> open;
  for (const auto& [node, pieces] : graph.at_node)
    if (pieces.size() == 1) open.push_back(graph.place.at(node));
  if (open.empty()) return;
  const Point here = open.front();
  Point nearest = here;
  double gap = std::numeric_limits<double>::infinity();
  const auto consider = [&](const Point& p) {
    const double apart = (p - here).norm();
    if (apart > 0 && apart < gap) {
      gap = apart;
      nearest = p;
    }
  };
  for (const Point& p : open) consider(p);
  if (open.size() == 1)
    for (const auto& [node, p] : graph.place) consider(p);
  throw InputError(
      "file",
      fmt::format("is not closed: a piece ends at {} and the nearest other {} "
                  "is {:.4g} {} away at {}{}",
                  place_text(here, unit), open.size() == 1 ? "end" : "open end",
                  gap, unit, place_text(nearest, unit),
                  open.size() > 2
                      ? fmt::format(" ({} open ends in all)", open.size())
                      : ""),
      fmt::format("join them, or take away the piece that is too many; ends "
                  "within {:.2g} {} count as joined",
                  tolerance, unit));
}

void refuse_branches(const Graph& graph, const std::string& unit) {
  for (const auto& [node, pieces] : graph.at_node)
    if (pieces.size() > 2)
      throw InputError(
          "file",
          fmt::format("has {} pieces that meet at {}", pieces.size(),
                      place_text(graph.place.at(node), unit)),
          "two at each corner: an outline neither branches nor "
          "touches itself");
}

}  // namespace

std::vector<Loop> chain(const std::vector<Curve>& pieces, double tolerance,
                        const std::string& unit) {
  const Graph graph = join_ends(pieces, tolerance);
  refuse_open_ends(graph, tolerance, unit);
  refuse_branches(graph, unit);
  std::vector<Loop> loops;
  std::vector<bool> used(graph.pieces.size(), false);
  for (std::size_t start = 0; start < graph.pieces.size(); ++start) {
    if (used[start]) continue;
    Loop loop;
    std::size_t piece = start, node = graph.nodes[start].first;
    while (!used[piece]) {
      used[piece] = true;
      const auto& [a, b] = graph.nodes[piece];
      const Curve& c = graph.pieces[piece];
      loop.push_back(node == a ? c : Curve{c.to, c.from, -c.bulge, c.face});
      node = node == a ? b : a;
      const std::vector<std::size_t>& two = graph.at_node.at(node);
      piece = two[0] == piece ? two[1] : two[0];
    }
    loops.push_back(std::move(loop));
  }
  return loops;
}

std::string place_text(const Point& p, const std::string& unit) {
  // Not "-0".
  return fmt::format("({:.6g}, {:.6g}) {}", p.x() + 0.0, p.y() + 0.0, unit);
}

}  // namespace thinspot::mesh
