#pragma once

#include "io/sweep.hpp"
#include "io/sweep_request.hpp"
#include "tests/unit/case_text.hpp"

#include <algorithm>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

namespace thinspot::tests {

/// A sweep of the sound case.
inline io::SweepRequest request_of(std::vector<std::string> vary,
                                   std::uint64_t sample = 0,
                                   std::string text = sound_case()) {
  io::SweepRequest r;
  r.file = (case_folder() / "case.toml").string();
  r.text = std::move(text);
  r.vary = std::move(vary);
  r.sample = sample;
  return r;
}

inline io::Sweep sweep_of(std::vector<std::string> vary,
                          std::uint64_t sample = 0,
                          std::string text = sound_case()) {
  return io::Sweep(request_of(std::move(vary), sample, std::move(text)));
}

/// What a point is, in the order of keys: "10 mm, 0.2 A".
inline std::string texts_of(const io::Sweep& sweep, std::uint64_t point) {
  std::vector<std::size_t> order;
  for (std::size_t k = 0; k < sweep.axes().size(); ++k) order.push_back(k);
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return sweep.axes()[a].key < sweep.axes()[b].key;
  });
  std::string text;
  for (const std::size_t k : order)
    text += (text.empty() ? "" : ", ") + sweep.text(point, k);
  return text;
}

}  // namespace thinspot::tests
