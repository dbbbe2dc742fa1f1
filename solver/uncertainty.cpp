#include "solver/uncertainty.hpp"

#include "solver/doubts.hpp"
#include "solver/draws.hpp"
#include "solver/input_effects.hpp"
#include "solver/section_band.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Of a 2.5 % quantile of so many draws the standard deviation is a twelfth of
/// the half width; strata make it less.
constexpr Index kDraws = 400;
/// Where the ends bend more than this the straight way is off by as much of a
/// half width.
constexpr double kMostBend = 0.1;
/// What all draws may take, in multiplications and additions, and in numbers
/// kept.
constexpr double kMostWork = 3e9, kMostNumbers = 5e6;

bool affordable(const Schedule& s) {
  const double draws = kDraws;
  return draws * work_of_draw(s) <= kMostWork &&
         draws * static_cast<double>(row_places(s).size) <= kMostNumbers;
}

/// Which way to go, and what to say of it.
void choose(Forecast& forecast, const InputEffects& effects, bool affordable) {
  const bool straight = effects.bend <= kMostBend && !effects.stops;
  const bool draw = !straight && affordable;
  forecast.method = draw ? Forecast::Method::draws : Forecast::Method::linear;
  if (draw) forecast.draws = static_cast<std::size_t>(kDraws);
  const std::string how =
      draw ? fmt::format(
                 "Bands come from {} draws by lot of all uncertain inputs at "
                 "once, always the same ones",
                 kDraws)
           : "Bands come from moving each uncertain input to its ends and "
             "adding up the changes by squares";
  const std::string seen =
      effects.stops
          ? "at an end of one nothing is left at the thinnest spot"
          : fmt::format(
                "at their ends they act {}in proportion on the thinnest spot, "
                "bent by {:.1g} % of the way",
                straight ? "" : "not ", 100 * effects.bend);
  forecast.why = fmt::format(
      "{}: {}{}.", how, seen,
      straight || affordable
          ? ""
          : fmt::format("; {} draws would take too long on these meshes",
                        kDraws));
}

/// Half widths by the inputs of the whole row.
struct Widths {
  VectorXd down, up;
};

Widths linear_widths(const InputEffects& e) {
  return {e.down.cwiseSqrt(), e.up.cwiseSqrt()};
}

Widths drawn_widths(const InputEffects& e, const MatrixXd& rows) {
  Widths w{VectorXd(e.base.size()), VectorXd(e.base.size())};
  for (Index k = 0; k < e.base.size(); ++k) {
    const std::vector<double> drawn(rows.col(k).begin(), rows.col(k).end());
    w.down(k) = std::max(0.0, e.base(k) - quantile(drawn, 0.025));
    w.up(k) = std::max(0.0, quantile(drawn, 0.975) - e.base(k));
  }
  return w;
}

Interval interval(double value, double down, double up) {
  // What is not negative stays so: a plated part does not dissolve by doubt.
  const double low = value - down;
  return {value >= 0 ? std::max(low, 0.0) : low, value + up};
}

/// What the bands are put together from.
struct Pieces {
  const Schedule& schedule;
  const std::vector<LayerOfSteps>& layers;
  RowPlaces places;
  const InputEffects& effects;
  Widths inputs;
  VectorXd mesh;                                        ///< half widths
  std::vector<std::optional<DiscRatios>> section = {};  ///< of each part
};

Interval with_mesh(const Pieces& p, Index k, const InputWidths& inputs) {
  return interval(p.effects.base(k), std::hypot(inputs.down, p.mesh(k)),
                  std::hypot(inputs.up, p.mesh(k)));
}

InputWidths widths_of(const Pieces& p, Index k) {
  return {p.inputs.down(k), p.inputs.up(k)};
}

/// Of the least judged thickness of a part, all errors in it.
Interval least_judged(const Pieces& p, std::size_t part,
                      const InputWidths& inputs) {
  const Index k = p.places.least_judged(part);
  Interval band = with_mesh(p, k, inputs);
  if (p.section[part])
    stretch_low(band, p.section[part]->least, p.effects.base(k));
  return band;
}

std::vector<Interval> along(const Pieces& p, std::size_t part) {
  const Index first = p.places.along[part],
              count = p.schedule.coats[part].thickness.size();
  const Spread& spread = p.schedule.spreads[part].thickness;
  std::vector<Interval> bands;
  for (Index k = first; k < first + count; ++k) {
    const double here = p.effects.base(k);
    Interval band = interval(here, p.inputs.down(k), p.inputs.up(k));
    if (p.section[part])
      stretch_low(band, ratio_at(*p.section[part], spread, here), here);
    bands.push_back(band);
  }
  return bands;
}

Bands::OfPart bands_of_part(const Pieces& p, std::size_t part) {
  Index k = p.places.least_judged(part) - RowPlaces::kOfPart + 1;
  Bands::OfPart b;
  for (Interval* i : {&b.least, &b.mean, &b.largest, &b.least_density,
                      &b.mean_density, &b.largest_density}) {
    *i = with_mesh(p, k, widths_of(p, k));
    ++k;
  }
  b.least_judged = least_judged(p, part, widths_of(p, k));
  if (const auto of_last =
          section_error_in(p.schedule, p.layers.back(), part)) {
    const DiscRatios& of_all = *p.section[part];
    const Spread& i =
        p.schedule.last().solved->outcome.parts[part].current_density_spread;
    const Spread& t = p.schedule.spreads[part].thickness;
    stretch_low(b.least, of_all.least, t.min);
    stretch_low(b.least_density, of_last->least, i.min);
    stretch_low(b.largest, of_all.largest, t.max);
    stretch_low(b.largest_density, of_last->largest, i.max);
  }
  if (!p.effects.each.empty() || p.section[part]) b.along = along(p, part);
  return b;
}

/// That a part is at least as thick as wanted where it counts, if its least
/// thickness is this but for the errors of mesh and section and, where they
/// are not in it yet, of the inputs.
double chance_of_part(const Pieces& p, std::size_t part, double least,
                      const InputWidths& inputs, double wanted) {
  const double mesh = p.mesh(p.places.least_judged(part));
  double down = std::hypot(inputs.down, mesh);
  if (p.section[part]) down = down_with(down, least, p.section[part]->least);
  return chance_above(wanted, least, down, std::hypot(inputs.up, mesh));
}

/// Copies on a rack share their inputs: the worst of them has the chance of
/// all.
double chance_of(const Pieces& p, const MatrixXd& rows, double wanted) {
  const auto worst = [&](const auto& of_part) {
    double chance = 1;
    for (std::size_t part = 0; part < p.schedule.coats.size(); ++part)
      chance = std::min(chance, of_part(part, p.places.least_judged(part)));
    return chance;
  };
  if (rows.rows() == 0)
    return worst([&](std::size_t part, Index k) {
      return chance_of_part(p, part, p.effects.base(k), widths_of(p, k),
                            wanted);
    });
  double sum = 0;
  for (Index n = 0; n < rows.rows(); ++n)
    sum += worst([&](std::size_t part, Index k) {
      return chance_of_part(p, part, rows(n, k), {}, wanted);
    });
  return sum / static_cast<double>(rows.rows());
}

/// The part whose band reaches lowest, and what would narrow it.
void say_what_narrows(const Pieces& p, Bands& bands) {
  std::size_t part = 0;
  for (std::size_t k = 1; k < bands.parts.size(); ++k)
    if (bands.parts[k].least_judged.low < bands.parts[part].least_judged.low)
      part = k;
  const Index k = p.places.least_judged(part);
  Forecast& f = bands.forecast;
  f.least = p.effects.base(k);
  f.band = bands.parts[part].least_judged;
  f.doubts = doubts_about(k, p.effects, p.layers);
  for (Doubt& doubt : f.doubts)
    doubt.then = least_judged(
        p, part, narrowed(widths_of(p, k), k, doubt, p.effects, p.layers));
}

}  // namespace

Bands compute_bands(const Schedule& schedule, const Case& c,
                    const Progress& progress) {
  return compute_bands(schedule, std::vector<Case>{c}, progress);
}

Bands compute_bands(const Schedule& schedule, const std::vector<Case>& cases,
                    const Progress& progress) {
  Bands bands;
  const std::vector<LayerOfSteps> layers = layers_in(schedule, cases);
  const Progress said = progress.named({"error bars"});

  // 1. Every input to its ends.
  const bool may_draw = affordable(schedule);
  const double ends = may_draw ? 0.5 : 1;
  const InputEffects effects =
      input_effects(schedule, layers, said.part(0, ends));
  if (!effects.each.empty()) choose(bands.forecast, effects, may_draw);

  // 2. All of them at once, where that shows more.
  MatrixXd rows;
  if (bands.forecast.method == Forecast::Method::draws)
    rows = drawn_rows(schedule, layers, effects, kDraws, said.part(ends, 1));
  said.at(1);

  // 3. With the errors of mesh and section.
  Pieces p{
      schedule,
      layers,
      row_places(schedule),
      effects,
      rows.size() > 0 ? drawn_widths(effects, rows) : linear_widths(effects),
      row_of_mesh_errors(schedule)};
  for (std::size_t part = 0; part < schedule.coats.size(); ++part)
    p.section.push_back(section_error_of_all(schedule, layers, part));
  const auto figure = [&](Index k) { return with_mesh(p, k, widths_of(p, k)); };
  bands.voltage = figure(0);
  bands.current = figure(1);
  for (Index k = 2; k < p.places.of_parts; k += 2)
    bands.rectifiers.push_back({figure(k), figure(k + 1)});
  for (std::size_t part = 0; part < schedule.coats.size(); ++part)
    bands.parts.push_back(bands_of_part(p, part));

  // 4. What it comes to.
  say_what_narrows(p, bands);
  const auto& wanted = cases.front().target.thickness;
  const bool doubtful =
      !effects.each.empty() ||
      std::any_of(p.section.begin(), p.section.end(),
                  [](const auto& ratios) { return ratios.has_value(); });
  if (cases.size() == 1 && wanted && doubtful)
    bands.chance = chance_of(p, rows, *wanted);
  return bands;
}

}  // namespace thinspot::solver
