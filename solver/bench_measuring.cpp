#include "solver/bench_measuring.hpp"

#include "solver/correlation.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace thinspot::solver {

namespace {

struct Row {
  std::string_view ending;  ///< of the key
  BenchMeasuring by;
};

// The first that fits holds.
constexpr std::array<Row, 16> kRows{{
    {"conductivity_per_kelvin",
     {0.1, false, "conductivity at two temperatures"}},
    {"conductivity",
     {0.03, false,
      "a conductivity meter, or the cell voltage at two gaps and one current"}},
    {"efficiency",
     {0.02, false, "weigh a flat token before and after a known charge"}},
    {"limiting_current_density",
     {0.1, false, "raise the current in small steps until the deposit burns"}},
    {"bag_resistance",
     {0.1, false, "the cell voltage with the bag and without"}},
    {"polarization_resistance",
     {0.1, false, "the cell voltage at two currents and two gaps"}},
    {"exchange_current_density",
     {0.1, false, "the cell voltage at several small currents"}},
    {"tafel_slope",
     {0.05, false, "the cell voltage at several currents, ten to one"}},
    {"polarization_offset",
     {0.01, true, "the cell voltage at several currents, drawn on to zero"}},
    {"open_circuit_voltage",
     {0.005, true, "the voltage between anode and part without current"}},
    {"resistance", {0.05, false, "the voltage along it at a known current"}},
    {"current_density", {0.02, false, "the current, and the part's area"}},
    {"current", {0.01, false, "an ammeter in the lead"}},
    {"voltage", {0.01, false, "a voltmeter at the supply's terminals"}},
    {"duration", {0.005, false, "a clock"}},
    // Contacts of a rack's places, with their number behind.
    {"", {0.05, false, "the voltage across it at a known current"}},
}};

}  // namespace

BenchMeasuring bench_measuring(const std::string& key) {
  return std::find_if(kRows.begin(), kRows.end(),
                      [&](const Row& row) { return key.ends_with(row.ending); })
      ->by;
}

double measured_to(const std::string& key, const Quantity& stated) {
  const BenchMeasuring by = bench_measuring(key);
  const double to = by.absolute ? by.to : by.to * std::abs(stated.value);
  return std::min(to, half_width(stated));
}

}  // namespace thinspot::solver
