#include "mesh/outline_chain.hpp"

#include "mesh/errors.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
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
  std::size_t node(std::size_t end) const { return first_[end]; }

 private:
  std::size_t leader(std::size_t end);
  void join(std::size_t a, std::size_t b);

  std::vector<Point> points_;
  std::vector<std::size_t> first_;  ///< union-find, the least number leads
};

/// Ends by squares so small that all in one of them are at the same point: a
/// drawing of many thousand ends above each other is chained in no time.
Ends::Ends(const std::vector<Curve>& pieces, double tolerance)
    : first_(2 * pieces.size()) {
  for (const Curve& c : pieces) {
    points_.push_back(c.from);
    points_.push_back(c.to);
  }
  std::iota(first_.begin(), first_.end(), std::size_t{0});
  constexpr double kOfDiagonal = 0.7;  // below 1 / sqrt(2)
  constexpr int kReach = 2;            // squares: 1 / kOfDiagonal, rounded up
  const double side = kOfDiagonal * tolerance;
  // Whole numbers; so far out that one more makes no difference, points that
  // are not the same lie farther apart than the tolerance.
  using Square = std::pair<double, double>;
  std::map<Square, std::vector<std::size_t>> squares;
  for (std::size_t end = 0; end < points_.size(); ++end) {
    const Point& p = points_[end];
    std::vector<std::size_t>& there =
        squares[{std::floor(p.x() / side), std::floor(p.y() / side)}];
    if (!there.empty()) join(there.front(), end);
    there.push_back(end);
  }
  const auto are_near = [&](const std::vector<std::size_t>& a,
                            const std::vector<std::size_t>& b) {
    return std::any_of(a.begin(), a.end(), [&](std::size_t j) {
      return std::any_of(b.begin(), b.end(), [&](std::size_t k) {
        return (points_[j] - points_[k]).norm() <= tolerance;
      });
    });
  };
  for (const auto& [square, ends] : squares)
    for (int right = 0; right <= kReach; ++right)
      for (int up = right > 0 ? -kReach : 1; up <= kReach; ++up) {
        const auto other =
            squares.find({square.first + right, square.second + up});
        if (other == squares.end()) continue;
        const std::size_t a = ends.front(), b = other->second.front();
        if (leader(a) != leader(b) && are_near(ends, other->second)) join(a, b);
      }
  for (std::size_t k = 0; k < first_.size(); ++k) first_[k] = leader(k);
}

std::size_t Ends::leader(std::size_t end) {
  while (first_[end] != end) {
    first_[end] = first_[first_[end]];
    end = first_[end];
  }
  return end;
}

void Ends::join(std::size_t a, std::size_t b) {
  a = leader(a);
  b = leader(b);
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
