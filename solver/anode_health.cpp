#include "solver/anode_health.hpp"

#include "solver/part_result.hpp"
#include "solver/result.hpp"
#include "solver/usual_range.hpp"

#include <algorithm>
#include <limits>

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

AnodeState state_of(const AnodeResult& r, const AnodeLimit& limit) {
  if (r.mean > limit.density.value + limit.density.plus_minus)
    return AnodeState::likely_passive;
  return r.mean > limit.density.value - limit.density.plus_minus
             ? AnodeState::may_passivate
             : AnodeState::sound;
}

/// Highest less lowest potential of the liquid along a solid [V].
double span_along(const Result& result, std::size_t solid) {
  double low = 0, high = 0;
  bool any = false;
  for (const mesh::BoundaryEdge& e : result.mesh.boundary) {
    if (e.owner != static_cast<int>(solid)) continue;
    for (const int node : e.nodes) {
      const double v = result.potential(node);
      low = any ? std::min(low, v) : v;
      high = any ? std::max(high, v) : v;
      any = true;
    }
  }
  return high - low;
}

}  // namespace

const Anode* anode_named(const Case& c, const std::string& name) {
  for (const Anode& anode : c.anodes)
    if (anode.name == name) return &anode;
  return nullptr;
}

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

Anodes anode_health(const Result& result) {
  Anodes all;
  double anodes = 0, cathodes = 0;
  for (const AnodeResult& r : result.anodes) {
    AnodeHealth& health = all.each.emplace_back();
    health.name = r.name;
    anodes += r.area;
    const Anode* anode = anode_named(result.used, r.name);
    if (!anode) continue;
    health.limit = anode_limit(result.used, *anode);
    if (r.area <= 0)
      health.state = AnodeState::idle;
    else if (health.limit)
      health.state = state_of(r, *health.limit);
  }
  for (const PartResult& part : result.parts) cathodes += part.area;
  for (const WireResult& wire : result.wires) cathodes += wire.area;
  for (const auto* list : {&result.clips, &result.thieves})
    for (const CathodeResult& cathode : *list) cathodes += cathode.area;
  if (cathodes > 0) all.to_cathode = anodes / cathodes;
  for (const FloatingResult& f : result.floating) {
    const double span = span_along(result, f.solid);
    all.bipolar.push_back({f.name, span, span > kBipolarSpan});
  }
  return all;
}

std::optional<InRange> share_in_range(const Result& result) {
  const std::optional<UsualRange> usual = usual_range(result.used);
  if (!usual) return std::nullopt;
  InRange in{usual->low, usual->high, usual->source, 0};
  double inside = 0, all = 0;
  for (const PartResult& part : result.parts) {
    constexpr double any = std::numeric_limits<double>::infinity();
    inside += area_within(part.surface, in.low, in.high);
    all += area_within(part.surface, -any, any);
  }
  if (all > 0) in.share = inside / all;
  return in;
}

}  // namespace thinspot::solver
