#pragma once

#include "solver/case.hpp"

#include <optional>
#include <string>

namespace thinspot::solver {

/// Above it a soluble anode passivates [A/m2], and where that is from.
struct AnodeLimit {
  Quantity density;
  std::string source;
};

/// The anode's own, else the solution's, else from memory for copper and
/// nickel. @returns nullopt for anodes that do not dissolve and other metals.
std::optional<AnodeLimit> anode_limit(const Case& c, const Anode& anode);

}  // namespace thinspot::solver
