#include "solver/uncertainty.hpp"

#include "mesh/errors.hpp"
#include "solver/section_error.hpp"
#include "solver/step_case.hpp"

#include <algorithm>
#include <cmath>
#include <memory>
#include <string>

namespace thinspot::solver {

namespace {

/// The figures in one row, so that one loop serves them all; densities, voltage
/// and current of the last step.
std::vector<double> figures(const Outcome& last,
                            const std::vector<CoatSpread>& spreads) {
  std::vector<double> f{last.point.terminal_voltage, last.point.total_current};
  for (const AtRectifier& r : last.point.rectifiers)
    f.insert(f.end(), {r.voltage, r.current});
  for (std::size_t p = 0; p < spreads.size(); ++p) {
    const Spread& t = spreads[p].thickness;
    const Spread& i = last.parts[p].current_density_spread;
    for (double x : {t.min, t.mean, t.max, i.min, i.mean, i.max,
                     spreads[p].least_judged.value})
      f.push_back(x);
  }
  return f;
}

/// What meshing may have put off of each figure, in the same order.
std::vector<double> mesh_errors(const Schedule& s) {
  const MeshErrors& e = s.last().solved->errors;
  std::vector<double> f{e.voltage, e.current};
  for (const MeshErrors::OfRectifier& r : e.rectifiers)
    f.insert(f.end(), {r.voltage, r.current});
  for (std::size_t p = 0; p < s.errors.size(); ++p) {
    const MeshErrors::OfPart &t = s.errors[p], &i = e.parts[p];
    for (double x : {t.least, t.mean, t.largest, i.least, i.mean, i.largest,
                     t.least_judged})
      f.push_back(x);
  }
  return f;
}

/// The steps of a case that differs in its quantities alone; what shares a
/// solution shares it again.
std::vector<double> figures_of(const Schedule& s, const Case& c) {
  std::vector<std::shared_ptr<const Outcome>> outcomes;
  std::vector<const Outcome*> seen;
  std::vector<double> growth;
  const Case all = expanded(c, s.angles).content;
  for (std::size_t k = 0; k < s.steps.size(); ++k) {
    Case alone = case_of_step(all, k);
    alone.probes.clear();
    growth.push_back(growth_per_density(alone));
    const Certified* solved = s.steps[k].solved.get();
    for (std::size_t j = 0; j < k && outcomes.size() == k; ++j)
      if (s.steps[j].solved.get() == solved) outcomes.push_back(outcomes[j]);
    if (outcomes.size() == k)
      outcomes.push_back(std::make_shared<const Outcome>(
          evaluate(solved->model, alone, &solved->outcome.point)));
    seen.push_back(outcomes.back().get());
  }
  return figures(*seen.back(), lay_down(s, c, seen, growth).spreads);
}

/// An end of an interval at which the cell does not work at all (a voltage
/// below the offsets, say) counts as no current and no deposit.
std::vector<double> figures_or_none(const Schedule& s, const Case& c,
                                    std::size_t count) {
  try {
    return figures_of(s, c);
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

Bands compute_bands(const Schedule& schedule, const Case& c) {
  const Certified& last = *schedule.last().solved;
  const Model& model = last.model;
  const Outcome& outcome = last.outcome;
  const std::vector<double> base = figures(outcome, schedule.spreads);
  // What a quantity changes is found on the surface as drawn, and is the same
  // share of the figure where the surface moves.
  std::vector<double> share(base.size(), 1), drawn = base;
  if (c.growth) {
    drawn = figures_of(schedule, c);
    for (std::size_t k = 0; k < base.size(); ++k)
      if (drawn[k] != 0) share[k] = base[k] / drawn[k];
  }
  std::vector<double> up = mesh_errors(schedule);
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
          figures_or_none(schedule, moved, base.size());
      for (std::size_t k = 0; k < f.size(); ++k) {
        const double change = share[k] * (f[k] - drawn[k]);
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
  for (std::size_t r = 0; r < outcome.point.rectifiers.size(); ++r) {
    Bands::OfRectifier& of = bands.rectifiers.emplace_back();
    of.voltage = next();
    of.current = next();
  }
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
      const CoatSpread& t = schedule.spreads[p];
      stretch_low(b.least, error->least, t.thickness.min);
      stretch_low(b.least_judged, error->least, t.least_judged.value);
      stretch_low(b.least_density, error->least, o.current_density_spread.min);
      stretch_low(b.largest, error->largest, t.thickness.max);
      stretch_low(b.largest_density, error->largest,
                  o.current_density_spread.max);
    }
    bands.parts.push_back(b);
  }
  return bands;
}

}  // namespace thinspot::solver
