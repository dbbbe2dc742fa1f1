#include "tests/unit/fit_samples.hpp"

namespace thinspot::tests {

namespace {

solver::FittedValue value(const std::string& key, solver::Quantity stated,
                          double found, double plus_minus) {
  solver::FittedValue v;
  v.key = key;
  v.stated = stated;
  v.value = found;
  v.plus_minus = plus_minus;
  v.interval = {found - plus_minus, found + plus_minus};
  v.wanted = true;
  return v;
}

solver::FittedReading reading(solver::Reading::Of of, double read,
                              double plus_minus, double before, double now) {
  solver::FittedReading r;
  r.reading.of = of;
  r.reading.value = read;
  r.reading.plus_minus = plus_minus;
  r.before = before;
  r.now = r.others = now;
  r.residual = r.against_others = 1.96 * (now - read) / plus_minus;
  return r;
}

}  // namespace

solver::Fit fit_sample(const solver::Case& c) {
  using Of = solver::Reading::Of;
  solver::Fit f;
  f.stated = c;
  f.values = {
      value("solution.conductivity", c.solution.conductivity, 17.3456, 1.2345),
      value("cathode.polarization_resistance", c.cathode.resistance, 2.1e-4,
            3.3e-5),
      value("cathode.polarization_offset", c.cathode.offset, 0, 0)};
  f.values.back().given_up = true;
  f.pairs = {
      {{"solution.conductivity", "cathode.polarization_resistance"}, 0.654321}};
  f.readings = {reading(Of::voltage, 0.41, 0.01, 0.3, 0.412),
                reading(Of::mass, 1.5e-4, 1e-5, 1.6e-4, 1.52e-4),
                reading(Of::thickness, 2e-5, 1e-6, 1.2e-5, 1.3e-5)};
  f.readings[0].reading.at = "0.2 A";
  f.readings[0].reading.at_current = 0.2;
  f.readings[2].reading.at = "heaviest";
  f.readings[2].reading.where = solver::Reading::Where::heaviest;
  f.readings[2].outlier = true;
  f.readings[2].moves = "solution.conductivity";
  f.readings[2].moved_to = 18.9;
  for (int k = 0; k < 3; ++k) f.readings[std::size_t(k)].reading.line = k + 2;
  f.untold = {
      {{"cathode.polarization_offset", "cathode.polarization_resistance"},
       {0.8, -0.6},
       4}};
  f.squares = 1.5;
  f.freedom = 1;
  f.chance = 0.22;
  f.meshings = 2;
  f.evaluations = 9;
  f.fitted = c;
  f.fitted.solution.conductivity = {17.3456, 1.2345};
  f.fitted.cathode.resistance = {2.1e-4, 3.3e-5};
  return f;
}

}  // namespace thinspot::tests
