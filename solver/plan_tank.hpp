#pragma once

#include "solver/case.hpp"
#include "solver/plan_structures.hpp"

#include <optional>
#include <string>
#include <vector>

// What structures of a plan are made of, and what may move in them.
namespace thinspot::solver {

/// Another name than those that are there: "sheet", else "sheet 2" …
/// @param table  that it is to stand in: "anode"
std::string free_name(const Case& c, const std::string& like,
                      const std::string& table);

/// Of all copies of the part.
mesh::Box box_of_parts(const mesh::Section& drawn);

Case without_anodes(const Case& c, const std::vector<std::string>& names);

/// A rod in the bore of a tube or the recess of a channel, in place of all
/// anodes. @returns nothing where there is no such room, or an anode in it.
std::optional<Case> with_anode_inside(const Case& c);

/// With a shield or thief of the wishes, or a pair of it that mirror each other
/// above and below the part's middle.
PlanStructure with_spare(const PlanStructure& on, const Spare& spare,
                         mesh::Role role);

}  // namespace thinspot::solver
