#include "solver/supply.hpp"

#include "mesh/errors.hpp"
#include "solver/curved_laws.hpp"
#include "solver/rectifiers.hpp"
#include "solver/rescaling.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::VectorXd;

/// Everything is linear in the voltage: total = slope * voltage + rest.
struct Line {
  double slope = 0, rest = 0;
  double at(double x) const { return slope * x + rest; }
  double where(double y) const { return (y - rest) / slope; }
};

struct CellLines {
  Line part, total;  ///< cathode currents over the voltage at the anodes
};

CellLines cell_lines(const WorkingPoint& w, const SectionScale& scale) {
  CellLines lines;
  const Eigen::MatrixXd g = w.answers.current * scale.depth;
  const VectorXd at_0 = g * drives(w.laws, g, 0);
  const VectorXd at_1 = g * drives(w.laws, g, 1);
  double cathodes_0 = 0, cathodes_1 = 0;
  for (std::size_t e = 0; e < w.laws.size(); ++e) {
    const auto k = static_cast<Index>(e);
    if (w.laws[e].anode || w.laws[e].floating) continue;
    cathodes_0 += at_0(k);
    cathodes_1 += at_1(k);
    if (!w.laws[e].part) continue;
    lines.part.rest += at_0(k);
    lines.part.slope += at_1(k) - at_0(k);
  }
  // Wires are not drawn: their current comes on top of the section's.
  const double wires = kWireShare * scale.wire_area / scale.part_area;
  lines.total.rest = cathodes_0 + wires * lines.part.rest;
  lines.total.slope = cathodes_1 - cathodes_0 + wires * lines.part.slope;
  return lines;
}

/// Voltage at the anodes that the supply's settings ask for.
double wanted_voltage(const CellLines& lines, const Supply& supply,
                      const SectionScale& scale, std::string& limited_by) {
  const double lead = supply.lead_resistance.value;
  // terminals = voltage + lead * total(voltage)
  const auto at_terminals = [&](double terminals) {
    return (terminals - lead * lines.total.rest) /
           (1 + lead * lines.total.slope);
  };
  if (supply.voltage) {
    limited_by = "voltage";
    return at_terminals(supply.voltage->value);
  }
  double voltage = 0;
  if (supply.current) {
    limited_by = "current";
    voltage = lines.total.where(supply.current->value);
  } else {
    limited_by = "current density";
    voltage = lines.part.where(supply.current_density->value * scale.part_area);
  }
  if (!supply.voltage_limit) return voltage;
  const double terminals = voltage + lead * lines.total.at(voltage);
  if (terminals <= *supply.voltage_limit) return voltage;
  limited_by = "voltage limit";
  return at_terminals(*supply.voltage_limit);
}

void settle(WorkingPoint& w, const Response& response, const Case& c,
            const SectionScale& scale) {
  w.answers =
      response.answer(c.solution.conductivity.value, local_laws(w.laws));
  operate(w, c, scale);
}

/// Relative change of every resistance below which the search ends.
constexpr double kSettled = 1e-10;
constexpr double kNearlySettled = 1e-6;  // for bands, and if need be
constexpr int kMostTries = 100;

bool by_voltage(const WorkingPoint& w) {
  const auto is = [](const std::string& limited_by) {
    return limited_by == "voltage" || limited_by == "voltage limit";
  };
  return is(w.limited_by) ||
         std::any_of(w.rectifiers.begin(), w.rectifiers.end(),
                     [&](const AtRectifier& r) { return is(r.limited_by); });
}

/// The rectifier that gives most, the first of those that give alike.
std::size_t leading(const WorkingPoint& w) {
  std::size_t most = 0;
  for (std::size_t r = 1; r < w.rectifiers.size(); ++r)
    if (w.rectifiers[r].current > (1 + 1e-9) * w.rectifiers[most].current)
      most = r;
  return most;
}

/// A voltage that leaves an electrode where its slope is no longer known: what
/// would be printed then is kRest's floor, not the user's cell.
bool at_rest(const WorkingPoint& w, const Response& response, const Case& c,
             double depth) {
  for (std::size_t e = 0; e < w.laws.size(); ++e) {
    const Polarization& p =
        polarization_of(c, response.electrodes().each[e].solid);
    if (w.laws[e].anode && !w.rectifiers.empty() &&
        w.rectifiers[w.laws[e].rectifier].limited_by == "blocked")
      continue;
    if (!w.laws[e].floating && rescales(p) &&
        mean_density(w, response, e, depth) <= kRest * *p.at)
      return true;
  }
  return false;
}

/// Bare metals that touch at different potentials and have no polarization:
/// from one to the other the current has no bound.
void check_touching(const WorkingPoint& w, const Response& response,
                    const Case& c) {
  const auto m = static_cast<Index>(w.laws.size());
  const double least = 1e-9 * w.drive.head(m).cwiseAbs().maxCoeff();
  for (const auto& [a, b] : response.touching(local_laws(w.laws))) {
    const double apart =
        w.drive(static_cast<Index>(a)) - w.drive(static_cast<Index>(b));
    if (std::abs(apart) <= least) continue;
    const auto key = [&](std::size_t e) {
      return c.section.solids[response.electrodes().each[e].solid].key;
    };
    throw InputError(
        key(b),
        fmt::format("touches {} and stands {:.2g} V apart from it; "
                    "without polarization the current between "
                    "them has no bound",
                    key(a), std::abs(apart)),
        "a polarization_resistance above 0, or contacts without "
        "resistance");
  }
}

}  // namespace

VectorXd current_density(const Response& response, const WorkingPoint& w,
                         std::size_t electrode) {
  return response.current_density(electrode, w.answers, w.drive,
                                  w.laws[electrode].resistance,
                                  w.laws[electrode].tangent.get());
}

void operate(WorkingPoint& w, const Case& c, const SectionScale& scale) {
  if (!c.rectifiers.empty()) return operate_rectifiers(w, c, scale);
  const CellLines lines = cell_lines(w, scale);
  if (!(lines.total.slope > 0)) throw NoResultError(kNoCurrent);
  const double voltage = wanted_voltage(lines, c.supply, scale, w.limited_by);
  w.drive = drives(w.laws, w.answers.current * scale.depth, voltage);
  w.current = w.answers.current * w.drive * scale.depth;
  w.total_current = lines.total.at(voltage);
  w.wire_current =
      kWireShare * scale.wire_area / scale.part_area * lines.part.at(voltage);
  w.terminal_voltage =
      voltage + c.supply.lead_resistance.value * w.total_current;
}

WorkingPoint find_working_point(const Response& response, const Case& c,
                                const SectionScale& scale,
                                const Beginning& begin) {
  WorkingPoint w;
  w.laws = laws_of(c, response.electrodes());
  if (begin.at)
    for (std::size_t e = 0; e < w.laws.size(); ++e)
      if (rescales(polarization_of(c, response.electrodes().each[e].solid)) &&
          !w.laws[e].floating)
        w.laws[e].resistance = begin.at->laws[e].resistance;
  if (begin.near) w.leading = begin.at->leading;
  CurvedLaws curved(response, c, scale, begin.at);
  curved.put(w.laws);
  settle(w, response, c, scale);
  for (int round = 1; round <= kMostTries; ++round) {
    const Rescaling r = rescaling(w, response, c, scale.depth);
    double change =
        r.electrodes.empty() ? 0 : (r.after - r.before).cwiseAbs().maxCoeff();
    if (curved.any()) {
      w.bent.push_back(curved.follow(w));
      change = std::max(change, w.bent.back());
    }
    if (change < (begin.near ? kNearlySettled : kSettled)) break;
    if (!r.electrodes.empty()) {
      const VectorXd next = newton_step(w, r, response, c, scale);
      for (std::size_t k = 0; k < r.electrodes.size(); ++k)
        w.laws[r.electrodes[k]].resistance =
            std::exp(next(static_cast<Index>(k)));
    }
    curved.put(w.laws);
    settle(w, response, c, scale);
    if (round == kMostTries && change > kNearlySettled)
      throw NoResultError(
          "current and polarization do not settle: the voltage is hardly more "
          "than what polarization at the stated current density takes");
  }
  if (!begin.near && !w.rectifiers.empty()) {
    w.leading = leading(w);
    operate(w, c, scale);
  }
  check_touching(w, response, c);
  check_rectifiers(w, c);
  if (by_voltage(w) && at_rest(w, response, c, scale.depth))
    throw InputError(
        "supply",
        fmt::format("at {:.3g} V next to no current flows: polarization at the "
                    "stated current density alone takes more, and how the "
                    "cell behaves so near rest is not known",
                    w.terminal_voltage),
        "a higher voltage, or set the current instead");
  if (!(w.total_current > 0))
    throw InputError(
        "supply",
        fmt::format("at {:.3g} V no current flows into the part: the "
                    "anodes' open circuit voltage and the offsets "
                    "take more",
                    w.terminal_voltage),
        "a higher voltage, or set the current instead");
  return w;
}

}  // namespace thinspot::solver
