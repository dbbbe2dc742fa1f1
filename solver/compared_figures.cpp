#include "solver/compared_figures.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

namespace thinspot::solver {

namespace {

/// One result's side of a figure.
struct Side {
  std::optional<double> value;
  std::optional<Interval> band = {};
  double mesh_error = 0;
};

std::optional<Interval> if_any(const Interval& band) {
  if (band.high > band.low) return band;
  return std::nullopt;
}

Side thinnest(const Result& r) {
  const PartResult* best = &r.parts.front();
  for (const PartResult& p : r.parts)
    if (p.thickness.value.min < best->thickness.value.min) best = &p;
  return {best->thickness.value.min, if_any(best->thickness.min_band),
          best->thickness.mesh_error.min};
}

Side heaviest(const Result& r) {
  const PartResult* best = &r.parts.front();
  for (const PartResult& p : r.parts)
    if (p.thickness.value.max > best->thickness.value.max) best = &p;
  return {best->thickness.value.max, if_any(best->thickness.max_band),
          best->thickness.mesh_error.max};
}

/// Of all copies, by their areas; their bands go together, as they come of the
/// same inputs.
Side mean(const Result& r) {
  double area = 0;
  for (const PartResult& p : r.parts) area += p.area;
  const bool alike = !(area > 0);
  if (alike) area = static_cast<double>(r.parts.size());
  Side side{0.0};
  Interval band;
  for (const PartResult& p : r.parts) {
    const double share = (alike ? 1 : p.area) / area;
    *side.value += share * p.thickness.value.mean;
    band.low += share * p.thickness.mean_band.low;
    band.high += share * p.thickness.mean_band.high;
    side.mesh_error += share * p.thickness.mesh_error.mean;
  }
  side.band = if_any(band);
  return side;
}

Side judged(const Result& r) {
  if (!r.target) return {};
  return {r.target->least, if_any(r.target->least_band),
          r.target->least_mesh_error};
}

Side evenness(const Result& r) {
  const double least = *thinnest(r).value, most = *heaviest(r).value;
  if (!(least > 0)) return {};
  const double error =
      thinnest(r).mesh_error / least + heaviest(r).mesh_error / most;
  return {most / least, std::nullopt, error * most / least};
}

Side mass(const Result& r) {
  Side side{0.0};
  for (const PartResult& p : r.parts) *side.value += p.mass;
  return side;
}

Side voltage(const Result& r) {
  return {r.cell.voltage, if_any(r.cell.voltage_band),
          r.cell.voltage_mesh_error};
}

Side current(const Result& r) {
  return {r.cell.current, if_any(r.cell.current_band)};
}

Side duration(const Result& r) {
  Side side{0.0};
  for (const StepResult& s : r.steps) *side.value += s.duration;
  return side;
}

Side time_needed(const Result& r) {
  if (!r.target) return {};
  return {r.target->time_needed};
}

Side steps(const Result& r) { return {static_cast<double>(r.steps.size())}; }

}  // namespace

Figure::Verdict Figure::verdict() const {
  if (!a || !b)
    return a.has_value() == b.has_value() ? Verdict::alike : Verdict::plain;
  // Files have six digits.
  const double rounding = 1e-5 * std::max(std::abs(*a), std::abs(*b));
  if (std::abs(*b - *a) <= mesh_error + rounding) return Verdict::alike;
  if (!band_a && !band_b) return Verdict::plain;
  return apart(band_a.value_or(Interval{*a, *a}),
               band_b.value_or(Interval{*b, *b}))
             ? Verdict::beyond
             : Verdict::within;
}

std::vector<Figure> compared_figures(const Result& a, const Result& b) {
  using Of = Figure::Of;
  struct Row {
    Of of;
    std::function<Side(const Result&)> side;
  };
  const Row rows[] = {{Of::thinnest_judged, judged},
                      {Of::thinnest, thinnest},
                      {Of::mean, mean},
                      {Of::heaviest, heaviest},
                      {Of::evenness, evenness},
                      {Of::mass, mass},
                      {Of::voltage, voltage},
                      {Of::current, current},
                      {Of::duration, duration},
                      {Of::time_needed, time_needed},
                      {Of::steps, steps}};
  std::vector<Figure> figures;
  for (const Row& row : rows) {
    const bool of_target =
        row.of == Of::thinnest_judged || row.of == Of::time_needed;
    if (of_target && (!a.target || !b.target)) continue;
    const Side in_a = row.side(a), in_b = row.side(b);
    figures.push_back({row.of, in_a.value, in_b.value, in_a.band, in_b.band,
                       in_a.mesh_error + in_b.mesh_error});
  }
  return figures;
}

const Figure* figure_of(const std::vector<Figure>& figures, Figure::Of of) {
  for (const Figure& f : figures)
    if (f.of == of) return &f;
  return nullptr;
}

}  // namespace thinspot::solver
