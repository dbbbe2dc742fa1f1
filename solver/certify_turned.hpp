#pragma once

#include "solver/certify.hpp"
#include "solver/turnable.hpp"

#include <memory>
#include <vector>

namespace thinspot::solver {

/// Cases that differ in their parts' turn and in their supply, solved on one
/// mesh.
struct CertifiedTurns {
  Turnable turnable;
  std::vector<std::shared_ptr<const Certified>> each;
  /// They ask for a finer section than one dense response can be of. Meshes of
  /// their own may be as fine.
  bool too_large() const { return each.empty(); }
};

/// As certify, all cases together: what one of them needs is refined for all,
/// and waves are added until what the others would change is a tenth of the
/// tolerance, which is in the bars. Of more than eight cases eight are
/// estimated, in even steps, and those between have the larger bars of their
/// two neighbours.
/// @param watched  of each case; empty: none
CertifiedTurns certify_turned(
    Turnable turnable, const std::vector<Case>& cases,
    const std::vector<std::vector<Watched>>& watched = {},
    const Progress& progress = {});

}  // namespace thinspot::solver
