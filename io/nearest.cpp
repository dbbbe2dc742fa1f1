#include "io/nearest.hpp"

#include <algorithm>

namespace thinspot::io {

namespace {

/// Longer texts are no slip of a known key.
constexpr std::size_t kLongest = 120;

/// Insertions, deletions, replacements and swaps of neighbours, each 1
/// (optimal string alignment).
/// @param enough  from there on how far they are apart is all the same
std::size_t edit_distance(std::string_view a, std::string_view b,
                          std::size_t enough) {
  if (std::max(a.size(), b.size()) - std::min(a.size(), b.size()) >= enough)
    return enough;
  std::vector<std::size_t> before(b.size() + 1), last(b.size() + 1),
      row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  std::size_t least_before = 0;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replaced = last[j - 1] + (a[i - 1] != b[j - 1]);
      row[j] = std::min({replaced, last[j] + 1, row[j - 1] + 1});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        row[j] = std::min(row[j], before[j - 2] + 1);
    }
    // What follows is made of these two rows, and of nothing less.
    const std::size_t least = *std::min_element(row.begin(), row.end());
    if (std::min(least, least_before) >= enough) return enough;
    least_before = least;
    std::swap(before, last);
    std::swap(last, row);
  }
  return last[b.size()];
}

}  // namespace

std::optional<std::string> nearest(std::string_view text,
                                   const std::vector<std::string>& candidates) {
  if (text.size() > kLongest) return std::nullopt;
  const std::size_t allowed = std::max<std::size_t>(2, text.size() / 3);
  std::optional<std::string> best;
  std::size_t least = allowed + 1;
  for (const std::string& candidate : candidates) {
    if (candidate.size() > kLongest) continue;
    const std::size_t distance = edit_distance(text, candidate, least);
    // A short word that has nothing left of it is no slip.
    if (distance < least && distance < candidate.size()) {
      least = distance;
      best = candidate;
    }
  }
  return best;
}

}  // namespace thinspot::io
