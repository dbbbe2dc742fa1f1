#pragma once

#include "solver/case.hpp"

#include <optional>
#include <string>

namespace thinspot::solver {

/// An address taken apart: which solid, and what of it.
struct PlacedAddress {
  std::size_t solid = 0;  ///< index into SectionSpec::solids
  std::string field;      ///< "gap", "at.x", "at.y", "turn", or a size
  bool level = false;     ///< the tank's, in place of a solid
};

/// @returns nothing where the address is of nothing that stands in the tank.
std::optional<PlacedAddress> find_placed(const Case& c, const std::string& key);

/// Moves a solid; a part takes its clips, probes and stop-off along [m].
void move_solid(Case& c, std::size_t solid, const mesh::Point& by);

}  // namespace thinspot::solver
