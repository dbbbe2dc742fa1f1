#pragma once

#include "solver/electrode_laws.hpp"

#include <algorithm>
#include <cstddef>
#include <memory>
#include <vector>

namespace thinspot::solver {

/// What is made for a conductivity and laws, kept for when it is asked for
/// again.
template <class Made>
class ForLaws {
 public:
  /// @param make  returns a shared pointer to what is made for these; called
  ///              where it is not kept
  /// @param most  kept at a time, 1 or more, those asked for last; room for one
  ///              more is made before that is, as it may need what others take
  template <class Make>
  const Made& get(double conductivity, const LocalLaws& laws, Make make,
                  std::size_t most = 1) {
    const auto found =
        std::find_if(kept_.begin(), kept_.end(), [&](const One& one) {
          return one.conductivity == conductivity && one.laws == laws;
        });
    if (found != kept_.end()) {
      std::rotate(found, found + 1, kept_.end());
    } else {
      while (kept_.size() >= most) kept_.erase(kept_.begin());
      kept_.push_back({conductivity, laws, make()});
    }
    return *kept_.back().made;
  }

 private:
  struct One {
    double conductivity = 0;
    LocalLaws laws;
    std::shared_ptr<const Made> made;
  };
  std::vector<One> kept_;
};

}  // namespace thinspot::solver
