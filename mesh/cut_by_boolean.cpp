#include "mesh/cut_by_boolean.hpp"

#include "mesh/kernel.hpp"

namespace thinspot::mesh {

std::vector<LiquidCurve> cut_by_boolean(const Section& section) {
  // The liquid's bounds first, then the solids in their order.
  std::vector<Outline> outlines{section.liquid_bounds};
  for (const PlacedSolid& s : section.solids) outlines.push_back(s.outline);
  std::vector<LiquidCurve> curves;
  for (const CutPiece& p : ask_for_cut(outlines)) {
    curves.push_back(
        liquid_curve(section, p.outline - 1, p.loop, p.curve, p.from, p.to));
    curves.back().region = p.region;
    curves.back().piece.start_vertex = p.start;
    curves.back().piece.end_vertex = p.end;
  }
  return curves;
}

}  // namespace thinspot::mesh
