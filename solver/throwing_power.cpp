#include "solver/throwing_power.hpp"

#include "mesh/errors.hpp"
#include "solver/efficiency.hpp"
#include "solver/model.hpp"
#include "solver/outcome.hpp"
#include "solver/polarization.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

namespace {

using mesh::Role;

constexpr double kSide = 0.1;     // of the square section [m]
constexpr double kPlate = 0.001;  // thickness of plates and gauze [m]
// Between the plates the field is straight: any mesh has it to rounding.
constexpr double kTolerance = 0.01;

mesh::Solid across(Role role, const std::string& name, double left) {
  mesh::Solid s;
  s.name = s.key = name;
  s.role = role;
  s.shape = "plate";
  s.sizes = {{"width", kPlate}, {"height", kSide}};
  s.at = {left + 0.5 * kPlate, 0.5 * kSide};
  return s;
}

/// Slope at a mean current density, as a Tafel law has it.
Quantity slope_at(const Polarization& law, double density) {
  if (!law.at) return law.resistance;
  const double scale = *law.at / density;
  return {law.resistance.value * scale, law.resistance.plus_minus * scale};
}

double relative(const Quantity& q) {
  return q.value > 0 ? q.plus_minus / q.value : 0;
}

/// Ratio of the deposits, with the conductivity multiplied by a factor.
double ratio(const Model& model, Case cell, double factor) {
  cell.solution.conductivity.value *= factor;
  const Outcome outcome = evaluate(model, cell);
  const auto deposit = [&](std::size_t part) {
    return depositing(cell.solution,
                      outcome.parts.at(part).current_density_spread.mean);
  };
  return deposit(0) / deposit(1);
}

}  // namespace

double haring_blum_percent(double distance_ratio, double mass_ratio) {
  return 100 * (distance_ratio - mass_ratio) / distance_ratio;
}

double field_percent(double distance_ratio, double mass_ratio) {
  return 100 * (distance_ratio - mass_ratio) /
         (distance_ratio + mass_ratio - 2);
}

Case haring_blum_cell(const Case& c, double mean_density) {
  Case cell;
  cell.title = "Haring-Blum cell";
  cell.solution = c.solution;
  cell.part_metal = c.part_metal;
  cell.section.cut = mesh::Cut::plan;
  cell.section.tank.width = kNearPlate + kFarPlate + 3 * kPlate;
  cell.section.tank.height = kSide;
  const double gauze = kPlate + kNearPlate;
  cell.section.solids = {
      across(Role::part, "near plate", 0),
      across(Role::part, "far plate", gauze + kPlate + kFarPlate),
      across(Role::anode, "gauze", gauze)};
  cell.depth = kSide;
  cell.cathode = c.cathode;
  cell.cathode.resistance = slope_at(c.cathode, mean_density);
  cell.cathode.at.reset();
  cell.anodes.resize(1);
  cell.anodes[0].name = "gauze";
  cell.anodes[0].solid = 2;
  cell.anodes[0].metal = c.solution.metal.name;
  cell.supply.current_density = Quantity{mean_density, 0};
  cell.steps = {{{3600, 0}}};
  cell.accuracy.tolerance = kTolerance;
  return cell;
}

ThrowingPower throwing_power(const Case& c, double mean_density) {
  if (!(mean_density > 0))
    throw InputError(
        "supply",
        fmt::format("gives {:.3g} A/m2 on the part, at which no throwing power "
                    "can be told",
                    mean_density),
        "a current above 0");
  const Case cell = haring_blum_cell(c, mean_density);
  const Model model = build_model(cell);
  ThrowingPower t;
  t.density = mean_density;
  const Quantity slope =
      linearized(cell.cathode, cell.solution, false, mean_density).resistance;
  t.wagner = cell.solution.conductivity.value * slope.value / kNearPlate;
  t.mass_ratio = ratio(model, cell, 1);
  t.haring_blum = haring_blum_percent(kDistanceRatio, t.mass_ratio);
  t.field = field_percent(kDistanceRatio, t.mass_ratio);
  // Conductivity and slope count by their product alone; the slope of the
  // curved laws goes as theirs a decade.
  const double off = std::hypot(
      relative(cell.solution.conductivity),
      relative(cell.cathode.law == Law::linear ? cell.cathode.resistance
                                               : cell.cathode.tafel_slope));
  const double more = ratio(model, cell, 1 + off);
  const double less = ratio(model, cell, std::max(0.05, 1 - off));
  t.mass_ratio_band = {std::min(more, less), std::max(more, less)};
  const auto band = [&](double (*percent)(double, double)) {
    return Interval{percent(kDistanceRatio, t.mass_ratio_band.high),
                    percent(kDistanceRatio, t.mass_ratio_band.low)};
  };
  t.haring_blum_band = band(haring_blum_percent);
  t.field_band = band(field_percent);
  return t;
}

}  // namespace thinspot::solver
