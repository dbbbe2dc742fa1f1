#include "certified_figures.hpp"

#include <cmath>

namespace thinspot::tests {

std::vector<CertifiedFigure> figures(const solver::Certified& s) {
  std::vector<CertifiedFigure> all;
  for (std::size_t p = 0; p < s.outcome.parts.size(); ++p) {
    const solver::PartOutcome& o = s.outcome.parts[p];
    const solver::MeshErrors::OfPart& e = s.errors.parts[p];
    const double mean = std::abs(o.current_density_spread.mean);
    all.push_back({o.current_density_spread.min, e.least, mean});
    all.push_back({o.current_density_spread.mean, e.mean, mean});
    all.push_back({o.current_density_spread.max, e.largest, mean});
    all.push_back({o.least_judged.value, e.least_judged, mean});
  }
  const double mean = all[1].scale;
  for (std::size_t k = 0; k < s.outcome.probes.size(); ++k)
    all.push_back({s.outcome.probes[k].window.value, s.errors.probes[k], mean});
  const solver::WorkingPoint& w = s.outcome.point;
  const double resistance = w.terminal_voltage / w.total_current;
  all.push_back({resistance, s.errors.resistance, resistance});
  return all;
}

}  // namespace thinspot::tests
