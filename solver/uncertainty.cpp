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

/// One layer of a schedule: its case and its place among the steps.
struct Layer {
  Case used;
  std::size_t first_step = 0, end_step = 0;    ///< of the cases
  std::size_t first_phase = 0, end_phase = 0;  ///< of the schedule
};

std::vector<Layer> layers_in(const Schedule& s,
                             const std::vector<Case>& cases) {
  std::vector<Layer> layers;
  std::size_t step = 0, phase = 0;
  for (const Case& c : cases) {
    Layer layer{c, step, step + c.steps.size(), phase, 0};
    while (phase < s.phases.size() && s.phases[phase].step < layer.end_step)
      ++phase;
    layer.end_phase = phase;
    step = layer.end_step;
    layers.push_back(std::move(layer));
  }
  return layers;
}

/// All steps where one layer differs in its quantities alone; what shares a
/// solution shares it again, and the other layers stay as they are.
std::vector<double> figures_of(const Schedule& s, const Layer& layer) {
  std::vector<std::shared_ptr<const Outcome>> outcomes;
  std::vector<const Outcome*> seen;
  std::vector<double> growth;
  const Case& c = layer.used;
  const auto angle = s.angles.begin();
  const Case all =
      expanded(c, {angle + static_cast<std::ptrdiff_t>(layer.first_step),
                   angle + static_cast<std::ptrdiff_t>(layer.end_step)})
          .content;
  for (std::size_t k = 0; k < s.steps.size(); ++k) {
    if (k < layer.first_phase || k >= layer.end_phase) {
      growth.push_back(s.steps[k].growth);
      outcomes.push_back(nullptr);
      seen.push_back(&s.steps[k].solved->outcome);
      continue;
    }
    Case alone = case_of_step(all, k - layer.first_phase);
    alone.probes.clear();
    growth.push_back(growth_per_density(alone));
    const Certified* solved = s.steps[k].solved.get();
    for (std::size_t j = layer.first_phase; j < k && outcomes.size() == k; ++j)
      if (s.steps[j].solved.get() == solved) outcomes.push_back(outcomes[j]);
    if (outcomes.size() == k)
      outcomes.push_back(std::make_shared<const Outcome>(
          evaluate(solved->model, alone, &solved->outcome.point)));
    seen.push_back(outcomes.back().get());
  }
  return figures(*seen.back(), lay_down(s, c, seen, growth).spreads);
}

/// Other layers' deposits alone.
std::vector<double> figures_without(const Schedule& s, const Layer& layer,
                                    std::size_t count) {
  std::vector<const Outcome*> outcomes;
  std::vector<double> growth;
  for (std::size_t k = 0; k < s.steps.size(); ++k) {
    const bool gone = k >= layer.first_phase && k < layer.end_phase;
    outcomes.push_back(&s.steps[k].solved->outcome);
    growth.push_back(gone ? 0 : s.steps[k].growth);
  }
  const bool alone = layer.first_phase == 0 && layer.end_phase == growth.size();
  if (alone) return std::vector<double>(count, 0);
  Outcome last = *outcomes.back();
  if (layer.end_phase == growth.size()) {
    last.point.terminal_voltage = last.point.total_current = 0;
    for (PartOutcome& part : last.parts) part.current_density_spread = {};
  }
  return figures(last, lay_down(s, layer.used, outcomes, growth).spreads);
}

/// An end of an interval at which the cell does not work at all (a voltage
/// below the offsets, say) counts as no current and no deposit.
std::vector<double> figures_or_none(const Schedule& s, const Layer& layer,
                                    std::size_t count) {
  try {
    return figures_of(s, layer);
  } catch (const CaseError&) {
  }
  return figures_without(s, layer, count);
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

double count_ends(std::vector<Layer>& layers) {
  double count = 0;
  for (Layer& layer : layers)
    for_each_quantity(layer.used, [&](const std::string&, const Quantity& q) {
      count += q.plus_minus > 0 ? 2 : 0;
    });
  return count;
}

/// Of a part's section in a layer, at its end.
std::optional<DiscRatios> error_in(const Schedule& s, const Layer& layer,
                                   std::size_t part) {
  const Certified& solved = *s.steps[layer.end_phase - 1].solved;
  const Model& model = solved.model;
  const Surface& surface = model.surfaces[part];
  const double wagner =
      wagner_of(model, layer.used, solved.outcome.point, surface).number;
  return section_error(
      model.section, model.response.electrodes().each[surface.electrode].solid,
      wagner);
}

/// Of all layers, by what each brings to the part.
/// @pre error_in has a value in each
DiscRatios error_of_all(const Schedule& s, const std::vector<Layer>& layers,
                        std::size_t part) {
  std::vector<double> volume;
  double all = 0;
  for (const Layer& layer : layers) {
    volume.push_back(0);
    for (std::size_t k = layer.first_phase; k < layer.end_phase; ++k)
      volume.back() +=
          s.steps[k].growth * s.steps[k].solved->outcome.parts[part].current;
    all += volume.back();
  }
  DiscRatios sum{0, 0};
  for (std::size_t l = 0; l < layers.size(); ++l) {
    const DiscRatios own = *error_in(s, layers[l], part);
    const double share = layers.size() > 1 ? volume[l] / all : 1;
    sum.least += share * own.least;
    sum.largest += share * own.largest;
  }
  return sum;
}

void stretch_low(Interval& band, double ratio, double value) {
  const double low = std::min(band.low, value);
  band.low =
      std::max(0.0, value - std::hypot(value - low, value * (1 - ratio)));
}

}  // namespace

Bands compute_bands(const Schedule& schedule, const Case& c,
                    const Progress& progress) {
  return compute_bands(schedule, std::vector<Case>{c}, progress);
}

Bands compute_bands(const Schedule& schedule, const std::vector<Case>& cases,
                    const Progress& progress) {
  const Certified& last = *schedule.last().solved;
  const Outcome& outcome = last.outcome;
  const std::vector<double> base = figures(outcome, schedule.spreads);
  // What a quantity changes is found on the surface as drawn, and is the same
  // share of the figure where the surface moves.
  std::vector<double> share(base.size(), 1), drawn = base;
  std::vector<Layer> layers = layers_in(schedule, cases);
  if (schedule.growth) {
    drawn = figures_of(schedule, layers.front());
    for (std::size_t k = 0; k < base.size(); ++k)
      if (drawn[k] != 0) share[k] = base[k] / drawn[k];
  }
  std::vector<double> up = mesh_errors(schedule);
  for (double& x : up) x *= x;
  std::vector<double> down = up;
  const double ends = count_ends(layers);
  double done = 0;
  const Progress said = progress.named({"error bars"});
  for (Layer& layer : layers)
    for_each_quantity(layer.used, [&](const std::string& key, Quantity& q) {
      if (q.plus_minus <= 0) return;
      const Quantity stated = q;
      for (double sign : {-1.0, 1.0}) {
        q.value = within_reason(key, stated.value,
                                stated.value + sign * stated.plus_minus);
        said.at(done++ / ends);
        const std::vector<double> f =
            figures_or_none(schedule, layer, base.size());
        for (std::size_t k = 0; k < f.size(); ++k) {
          const double change = share[k] * (f[k] - drawn[k]);
          double& side = change > 0 ? up[k] : down[k];
          side += change * change;
        }
      }
      q = stated;
    });
  said.at(1);
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
    if (const auto of_last = error_in(schedule, layers.back(), p)) {
      const DiscRatios of_all = error_of_all(schedule, layers, p);
      const PartOutcome& o = outcome.parts[p];
      const CoatSpread& t = schedule.spreads[p];
      stretch_low(b.least, of_all.least, t.thickness.min);
      stretch_low(b.least_judged, of_all.least, t.least_judged.value);
      stretch_low(b.least_density, of_last->least,
                  o.current_density_spread.min);
      stretch_low(b.largest, of_all.largest, t.thickness.max);
      stretch_low(b.largest_density, of_last->largest,
                  o.current_density_spread.max);
    }
    bands.parts.push_back(b);
  }
  return bands;
}

}  // namespace thinspot::solver
