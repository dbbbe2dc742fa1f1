#include "mesh/cut_by_line.hpp"

#include "mesh/crossing.hpp"

#include <algorithm>
#include <limits>

namespace thinspot::mesh {

namespace {

/// Signed distance, positive on the left.
double height(const Line& line, const Point& p) {
  const Point from = p - line.on;
  return line.along.x() * from.y() - line.along.y() * from.x();
}

double along(const Line& line, const Point& p) {
  return line.along.dot(p - line.on);
}

/// The stretch of the line that passes an outline.
Curve stretch_beside(const Line& line, const Outline& outline) {
  const Box box = bounding_box(outline);
  const double reach = box.size().norm();
  const double middle = along(line, box.centre());
  return {line.on + (middle - reach) * line.along,
          line.on + (middle + reach) * line.along, 0, ""};
}

struct Piece {
  Curve curve;
  bool kept = false;
};

/// A loop cut where it crosses the line.
std::vector<Piece> pieces_of(const Loop& loop, const Line& line,
                             double tolerance) {
  const Curve straight = stretch_beside(line, {{loop}});
  std::vector<Piece> pieces;
  for (const Curve& c : loop) {
    const double slack = tolerance / length(c);
    std::vector<double> cuts{0, 1};
    for (double t : crossings(c, straight))
      if (t > slack && t < 1 - slack) cuts.push_back(t);
    std::sort(cuts.begin(), cuts.end());
    for (std::size_t k = 0; k + 1 < cuts.size(); ++k) {
      if (cuts[k + 1] - cuts[k] <= slack) continue;
      const bool whole = cuts.size() == 2;
      const Curve piece = whole ? c : piece_of(c, cuts[k], cuts[k + 1]);
      pieces.push_back({piece, height(line, point_at(piece, 0.5)) > tolerance});
    }
  }
  return pieces;
}

}  // namespace

Outline left_of(const Outline& outline, const Line& line,
                const std::string& face, double tolerance) {
  Outline result;
  std::vector<Loop> chains;  // from where the line is entered to where left
  for (const Loop& loop : outline.loops) {
    const std::vector<Piece> pieces = pieces_of(loop, line, tolerance);
    const std::size_t n = pieces.size();
    const auto kept = [&](std::size_t k) { return pieces[k % n].kept; };
    if (std::all_of(pieces.begin(), pieces.end(),
                    [](const Piece& p) { return p.kept; })) {
      result.loops.push_back(loop);
      continue;
    }
    for (std::size_t k = 0; k < n; ++k) {
      if (!kept(k) || kept(k + n - 1)) continue;
      Loop chain;
      for (std::size_t j = k; kept(j); ++j)
        chain.push_back(pieces[j % n].curve);
      chains.push_back(std::move(chain));
    }
  }
  // From where a chain leaves the kept side the boundary runs along the line
  // to the next place where one enters it.
  std::vector<bool> used(chains.size(), false);
  for (std::size_t first = 0; first < chains.size(); ++first) {
    if (used[first]) continue;
    Loop loop;
    std::size_t k = first;
    do {
      used[k] = true;
      loop.insert(loop.end(), chains[k].begin(), chains[k].end());
      const Point leave = loop.back().to;
      std::size_t next = first;
      double least = std::numeric_limits<double>::infinity();
      for (std::size_t j = 0; j < chains.size(); ++j) {
        const double way =
            along(line, chains[j].front().from - leave + line.on);
        if (way < -tolerance || way >= least || (used[j] && j != first))
          continue;
        least = way;
        next = j;
      }
      const Point enter = chains[next].front().from;
      if ((enter - leave).norm() > tolerance)
        loop.push_back({leave, enter, 0, face});
      else
        loop.back().to = enter;
      k = next;
    } while (k != first && !used[k]);
    result.loops.push_back(std::move(loop));
  }
  return result;
}

}  // namespace thinspot::mesh
