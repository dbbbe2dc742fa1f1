#include "solver/anode_health.hpp"

#include "solver/part_result.hpp"
#include "solver/result.hpp"

#include <algorithm>

namespace thinspot::solver {

namespace {

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

}  // namespace thinspot::solver
