#pragma once

namespace thinspot::solver {

/// What is wanted beside the result itself.
struct Wanted {
  bool what_if = false;  ///< Result::what_if
};

}  // namespace thinspot::solver
