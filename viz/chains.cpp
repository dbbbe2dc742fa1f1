#include "viz/chains.hpp"

#include <algorithm>
#include <unordered_map>
#include <utility>

namespace thinspot::viz {

std::vector<std::vector<int>> closed_loops(
    const std::vector<std::array<int, 2>>& edges) {
  std::unordered_map<int, std::vector<int>> onward;
  for (const auto& [from, to] : edges) onward[from].push_back(to);
  std::vector<std::vector<int>> loops;
  for (const auto& edge : edges) {
    const int start = edge[0];
    while (!onward[start].empty()) {
      std::vector<int> loop;
      int at = start;
      do {
        loop.push_back(at);
        auto& ways = onward[at];
        if (ways.empty()) break;
        at = ways.back();
        ways.pop_back();
      } while (at != start);
      if (at == start && loop.size() > 2) loops.push_back(std::move(loop));
    }
  }
  return loops;
}

std::vector<std::array<int, 2>> rim(
    const std::vector<std::vector<int>>& polygons) {
  // Each inner edge is walked once in either direction: the two cancel.
  std::vector<std::array<int, 2>> edges;
  for (const auto& polygon : polygons)
    for (std::size_t k = 0; k < polygon.size(); ++k) {
      const int from = polygon[k], to = polygon[(k + 1) % polygon.size()];
      if (from != to) edges.push_back({from, to});
    }
  const auto undirected = [](const std::array<int, 2>& e) {
    return std::array<int, 2>{std::min(e[0], e[1]), std::max(e[0], e[1])};
  };
  std::sort(edges.begin(), edges.end(), [&](const auto& a, const auto& b) {
    return std::pair(undirected(a), a) < std::pair(undirected(b), b);
  });
  std::vector<std::array<int, 2>> result;
  for (std::size_t first = 0; first < edges.size();) {
    std::size_t last = first;
    int balance = 0;
    const auto key = undirected(edges[first]);
    for (; last < edges.size() && undirected(edges[last]) == key; ++last)
      balance += edges[last] == key ? 1 : -1;
    if (balance > 0) result.push_back(key);
    if (balance < 0) result.push_back({key[1], key[0]});
    first = last;
  }
  return result;
}

}  // namespace thinspot::viz
