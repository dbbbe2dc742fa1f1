#include "solver/uncertainty.hpp"

#include "mesh/errors.hpp"
#include "solver/section_error.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace thinspot::solver {

namespace {

/// The figures in one row, so that one loop serves them all.
std::vector<double> figures(const Outcome& o) {
  std::vector<double> f{o.point.terminal_voltage, o.point.total_current};
  for (const PartOutcome& p : o.parts)
    for (double x : {p.thickness_spread.min, p.thickness_spread.mean,
                     p.thickness_spread.max, p.current_density_spread.min,
                     p.current_density_spread.mean,
                     p.current_density_spread.max, p.least_judged})
      f.push_back(x);
  return f;
}

/// What meshing may have put off of each figure, in the same order.
std::vector<double> mesh_errors(const Certified& solved, double growth) {
  const MeshErrors& e = solved.errors;
  std::vector<double> f{e.voltage, e.current};
  for (const MeshErrors::OfPart& p : e.parts)
    for (double x : {growth * p.least, growth * p.mean, growth * p.largest,
                     p.least, p.mean, p.largest, growth * p.least_judged})
      f.push_back(x);
  return f;
}

/// An end of an interval at which the cell does not work at all (a voltage
/// below the offsets, say) counts as no current and no deposit.
std::vector<double> figures_or_none(const Model& model, const Case& c,
                                    const WorkingPoint& near,
                                    std::size_t count) {
  try {
    return figures(evaluate(model, c, &near));
  } catch (const InputError&) {
  } catch (const NoResultError&) {
  }
  return std::vector<double>(count, 0);
}

Interval interval(double value, double down, double up) {
  // What is not negative stays so: a plated part does not dissolve by doubt.
  const double low = value - std::sqrt(down);
  return {value >= 0 ? std::max(low, 0.0) : low, value + std::sqrt(up)};
}

/// What physics allows of a quantity: resistances are not negative,
/// efficiency is at most 1.
double within_reason(const std::string& key, double value, double moved) {
  if (key == "solution.efficiency") return std::clamp(moved, 0.0, 1.0);
  const bool signed_quantity =
      key.ends_with("offset") || key.ends_with("open_circuit_voltage");
  if (signed_quantity) return moved;
  // A resistance may be next to nothing, but not nothing: that is another law.
  // What else must stay positive stays above a twentieth of its value.
  return std::max(moved, (key.ends_with("resistance") ? 1e-3 : 0.05) * value);
}

void stretch_low(Interval& band, double ratio, double value) {
  const double low = std::min(band.low, value);
  band.low =
      std::max(0.0, value - std::hypot(value - low, value * (1 - ratio)));
}

}  // namespace

Bands compute_bands(const Certified& solved, const Case& c) {
  const Model& model = solved.model;
  const Outcome& outcome = solved.outcome;
  const std::vector<double> base = figures(outcome);
  std::vector<double> up = mesh_errors(solved, growth_per_density(c));
  for (double& x : up) x *= x;
  std::vector<double> down = up;
  Case moved = c;
  for_each_quantity(moved, [&](const std::string& key, Quantity& q) {
    if (q.plus_minus <= 0) return;
    const Quantity stated = q;
    for (double sign : {-1.0, 1.0}) {
      q.value = within_reason(key, stated.value,
                              stated.value + sign * stated.plus_minus);
      const std::vector<double> f =
          figures_or_none(model, moved, outcome.point, base.size());
      for (std::size_t k = 0; k < f.size(); ++k) {
        const double change = f[k] - base[k];
        double& side = change > 0 ? up[k] : down[k];
        side += change * change;
      }
    }
    q = stated;
  });
  Bands bands;
  std::size_t k = 0;
  const auto next = [&] {
    const Interval i = interval(base[k], down[k], up[k]);
    ++k;
    return i;
  };
  bands.voltage = next();
  bands.current = next();
  for (std::size_t p = 0; p < outcome.parts.size(); ++p) {
    Bands::OfPart b;
    for (Interval* i : {&b.least, &b.mean, &b.largest, &b.least_density,
                        &b.mean_density, &b.largest_density, &b.least_judged})
      *i = next();
    const Surface& surface = model.surfaces[p];
    const std::size_t solid =
        model.response.electrodes().each[surface.electrode].solid;
    const double wagner = wagner_of(model, c, outcome.point, surface).number;
    if (const auto error = section_error(model.section, solid, wagner)) {
      const PartOutcome& o = outcome.parts[p];
      stretch_low(b.least, error->least, o.thickness_spread.min);
      stretch_low(b.least_judged, error->least, o.least_judged);
      stretch_low(b.least_density, error->least, o.current_density_spread.min);
      stretch_low(b.largest, error->largest, o.thickness_spread.max);
      stretch_low(b.largest_density, error->largest,
                  o.current_density_spread.max);
    }
    bands.parts.push_back(b);
  }
  return bands;
}

}  // namespace thinspot::solver
