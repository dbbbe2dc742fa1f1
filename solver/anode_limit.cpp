#include "solver/anode_limit.hpp"

namespace thinspot::solver {

namespace {

// From memory: copper in acid sulfate up to 3 A/dm2, nickel with chloride up to
// 4, each by a good 1.
constexpr Quantity kCopper{300, 100}, kNickel{400, 100};

/// Whether an anode gives the metal that is plated.
bool gives_metal(const Case& c, const Anode& anode) {
  return anode.soluble &&
         (anode.metal.empty() ||
          anode.metal.find(c.solution.metal.name) != std::string::npos);
}

std::string source_in(const Solution& solution, const std::string& key) {
  for (const Provenance& p : solution.sources)
    if (p.key == key) return p.source;
  return "given";
}

}  // namespace

std::optional<AnodeLimit> anode_limit(const Case& c, const Anode& anode) {
  if (anode.limit) return AnodeLimit{*anode.limit, "given"};
  if (!gives_metal(c, anode)) return std::nullopt;
  if (c.solution.anode_limit)
    return AnodeLimit{*c.solution.anode_limit,
                      source_in(c.solution, "anode_limit")};
  if (c.solution.metal.name == "copper")
    return AnodeLimit{kCopper, "from memory"};
  if (c.solution.metal.name == "nickel")
    return AnodeLimit{kNickel, "from memory"};
  return std::nullopt;
}

}  // namespace thinspot::solver
