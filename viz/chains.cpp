#include "viz/chains.hpp"

#include <algorithm>
#include <cstdint>
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
  // Each inner edge is walked once in either direction: the two cancel. As
  // numbers they are quick to sort: the lesser end, the other, the direction.
  std::vector<std::uint64_t> edges;
  for (const auto& polygon : polygons)
    for (std::size_t k = 0; k < polygon.size(); ++k) {
      const int from = polygon[k], to = polygon[(k + 1) % polygon.size()];
      if (from == to) continue;
      const auto least = static_cast<std::uint64_t>(std::min(from, to));
      const auto most = static_cast<std::uint64_t>(std::max(from, to));
      edges.push_back(least << 33 | most << 1 | (from < to ? 1 : 0));
    }
  std::sort(edges.begin(), edges.end());
  std::vector<std::array<int, 2>> result;
  for (std::size_t first = 0; first < edges.size();) {
    std::size_t last = first;
    int balance = 0;
    const std::uint64_t both = edges[first] >> 1;
    for (; last < edges.size() && edges[last] >> 1 == both; ++last)
      balance += edges[last] & 1 ? 1 : -1;
    const auto least = static_cast<int>(both >> 32);
    const auto most = static_cast<int>(both & 0xffffffffu);
    if (balance > 0) result.push_back({least, most});
    if (balance < 0) result.push_back({most, least});
    first = last;
  }
  return result;
}

}  // namespace thinspot::viz
