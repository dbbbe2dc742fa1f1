#pragma once

#include "solver/case.hpp"
#include "tests/peers/peer.hpp"

#include <string>
#include <vector>

namespace thinspot::tests {

/// One figure of a case, answered twice.
struct Compared {
  std::string what;
  double ours = 0;
  double theirs = 0;
  double bar = 0;          ///< half width that ours claims
  double their_error = 0;  ///< what theirs still changed when made finer

  /// Within our bar and twice their error.
  bool agrees() const;

  /// Theirs is sharp enough for its agreement to mean something: known to half
  /// a hundredth.
  bool tells() const;
};

struct Comparison {
  std::vector<Compared> figures;
  double our_unknowns = 0, their_unknowns = 0;
};

/// Solves the case with ours; then, with the resistances of our working point,
/// on two meshes by the other program.
Comparison compare_with_peer(const solver::Case& c);

}  // namespace thinspot::tests
