#pragma once

#include "solver/case.hpp"

#include <set>
#include <string>

namespace thinspot::solver {

/// What is in a solution, in the words of Solution::contains: those that it
/// lists and those that its metal and name tell. "non-cyanide" tells none.
std::set<std::string> substances_in(const Solution& s);

/// A metal without its oxidation state: "tin" of "tin(IV)".
std::string plain_metal(const std::string& metal);

/// Whether anything tells of chloride, or of its absence: a recipe, or a name
/// that says of what the solution is made.
bool composition_known(const Solution& s);

}  // namespace thinspot::solver
