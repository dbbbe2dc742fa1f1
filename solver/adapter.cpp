#include "solver/adapter.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace thinspot::solver {

namespace {

// Resistivity of copper wire at 20 degC: IEC 60028, from memory.
constexpr double kCopper = 1.7241e-8;  // [ohm m]
// What a single flexible lead in free air carries without getting warm to the
// hand: common practice, no source.
constexpr double kPerArea = 6e6;  // [A/m2]
// Usual cross sections of flexible leads: IEC 60228, from memory.
constexpr std::array<double, 10> kAreas{0.25e-6, 0.5e-6, 0.75e-6, 1e-6,  1.5e-6,
                                        2.5e-6,  4e-6,   6e-6,    10e-6, 16e-6};

/// American wire gauge: 36 is 0.127 mm thick, each number thinner by the 39th
/// root of 92. Source: ASTM B258, from memory.
int thinnest_gauge(double area) {
  const double diameter = std::sqrt(4 * area / std::numbers::pi);
  const double gauge = 36 - 39 * std::log(diameter / 0.127e-3) / std::log(92.0);
  return static_cast<int>(std::floor(gauge + 1e-9));
}

}  // namespace

double next_e12(double resistance) {
  constexpr std::array<double, 13> series{1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3,
                                          3.9, 4.7, 5.6, 6.8, 8.2, 10.0};
  const double decade = std::pow(10, std::floor(std::log10(resistance)));
  for (double value : series)
    if (value * decade >= resistance * (1 - 1e-9)) return value * decade;
  return 10 * decade;
}

std::optional<SeriesResistor> series_resistor(double adapter, double current,
                                              double cell,
                                              const Interval& band) {
  if (!(current > 0) || !(adapter > cell)) return std::nullopt;
  SeriesResistor r;
  r.exact = (adapter - cell) / current;
  r.resistance = next_e12(r.exact);
  const auto through = [&](double volts) {
    return adapter / (r.resistance + std::max(0.0, volts) / current);
  };
  r.current = through(cell);
  r.current_band = {through(band.high), through(band.low)};
  r.heat = r.current * r.current * r.resistance;
  r.rating = 2 * r.heat;
  r.short_circuit = adapter / r.resistance;
  return r;
}

std::optional<WireGauge> wire_gauge(double current, double length,
                                    double most) {
  const double needed =
      std::max(current / kPerArea, kCopper * 2 * length * current / most);
  const auto area = std::find_if(kAreas.begin(), kAreas.end(),
                                 [&](double a) { return a >= needed; });
  if (area == kAreas.end()) return std::nullopt;
  WireGauge w;
  w.area = *area;
  // No lead is thinner than the list's first, whatever the current.
  w.awg = thinnest_gauge(std::max(needed, kAreas.front()));
  w.drop = kCopper * 2 * length * current / w.area;
  return w;
}

}  // namespace thinspot::solver
