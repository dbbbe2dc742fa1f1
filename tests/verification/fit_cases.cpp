#include "fit_cases.hpp"

namespace thinspot::tests {

using solver::Reading;
using Of = Reading::Of;
using Where = Reading::Where;

namespace {

solver::Case nearer(solver::Case c) {
  c.section.solids[1].at.x() += 0.012;
  return c;
}

}  // namespace

Reading reading(Of of, double value, double plus_minus) {
  Reading r;
  r.of = of;
  r.value = value;
  r.plus_minus = plus_minus;
  return r;
}

Reading voltage_at(double current, double volts, double plus_minus) {
  Reading r = reading(Of::voltage, volts, plus_minus);
  r.at_current = current;
  return r;
}

Reading thickness_at(const mesh::Point& at, double share_sure) {
  Reading r = reading(Of::thickness, 1e-5, share_sure * 1e-5);
  r.where = Where::point;
  r.point = at;
  return r;
}

solver::Case cell(double gap, double kappa, double slope, double offset) {
  solver::Case c = channel(gap, kHeight, kappa, slope, 0, 1);
  c.supply = {};
  c.supply.current = solver::Quantity{1, 0};
  c.cathode.offset.value = offset;
  return c;
}

double cell_voltage(double current, double gap, double kappa, double slope,
                    double offset) {
  return current / kHeight * (gap / kappa + slope) + offset;
}

solver::Case fit_token(double kappa, double slope, double offset) {
  solver::Case c = token();
  c.cathode.at.reset();
  c.solution.conductivity.value = kappa;
  c.cathode.resistance.value = slope;
  c.cathode.offset.value = offset;
  return c;
}

std::vector<solver::Experiment> token_readings(const solver::Case& c) {
  std::vector<Reading> readings;
  for (const double current : {0.1, 0.2, 0.35, 0.5})
    readings.push_back(voltage_at(current));
  readings.push_back(reading(Of::mass, 1e-4, 1e-6));
  readings.push_back(thickness_at({0.0438, 0.05}, 0.03));
  readings.push_back(thickness_at({0.0462, 0.05}, 0.03));
  readings.push_back(thickness_at({0.045, 0.065}, 0.03));
  return {{c, readings}, {nearer(c), {voltage_at(0.2), voltage_at(0.5)}}};
}

}  // namespace thinspot::tests
