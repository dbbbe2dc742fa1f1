#include "solver/circuit.hpp"

#include <Eigen/LU>

#include <algorithm>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

template <class Things>
auto find_by_solid(const Things& things, std::size_t solid) {
  const auto found =
      std::find_if(things.begin(), things.end(),
                   [&](const auto& thing) { return thing.solid == solid; });
  return found == things.end() ? nullptr : &*found;
}

/// Between a part and the minus rail: its clips beside each other, then its
/// place on the rack. A wire is a contact without resistance [ohm].
double contact_resistance(const Case& c, const mesh::Solid& part) {
  double series = 0;
  if (c.rack && !c.rack->contact_resistance.empty() && part.copy > 0)
    series = c.rack->contact_resistance[static_cast<std::size_t>(part.copy - 1)]
                 .value;
  if (c.clips.empty() || !c.wires.empty()) return series;
  double conductance = 0;
  for (const Clip& clip : c.clips) {
    if (!(clip.contact_resistance.value > 0)) return series;
    conductance += 1 / clip.contact_resistance.value;
  }
  return series + 1 / conductance;
}

}  // namespace

double shift(const ElectrodeLaw& law) {
  return law.anode ? -law.open_circuit - law.offset : law.offset;
}

const Anode* anode_of(const Case& c, std::size_t solid) {
  return find_by_solid(c.anodes, solid);
}

const Polarization& polarization_of(const Case& c, std::size_t solid) {
  if (const Anode* anode = anode_of(c, solid)) return anode->polarization;
  const Thief* thief = find_by_solid(c.thieves, solid);
  return thief && thief->polarization ? *thief->polarization : c.cathode;
}

std::vector<ElectrodeLaw> laws_of(const Case& c, const Electrodes& electrodes) {
  std::vector<ElectrodeLaw> laws;
  for (const Electrode& e : electrodes.each) {
    ElectrodeLaw law;
    const mesh::Solid& solid = c.section.solids[e.solid];
    if (const Floating* floating = find_by_solid(c.floating, e.solid)) {
      law.floating = true;
      law.resistance = floating->resistance.value;
      laws.push_back(law);
      continue;
    }
    const Polarization& p = polarization_of(c, e.solid);
    law.part = solid.role == mesh::Role::part;
    law.resistance = p.resistance.value;
    law.offset = p.offset.value;
    if (const Anode* anode = anode_of(c, e.solid)) {
      law.anode = true;
      law.open_circuit = anode->open_circuit_voltage.value;
      law.rectifier = anode->rectifier;
      law.resistance += anode->bag_resistance.value;
    }
    if (law.part) law.series = contact_resistance(c, solid);
    if (const Thief* thief = find_by_solid(c.thieves, e.solid))
      law.series = thief->resistance.value;
    laws.push_back(law);
  }
  return laws;
}

std::vector<double> resistances_of(const std::vector<ElectrodeLaw>& laws) {
  std::vector<double> resistances;
  for (const ElectrodeLaw& law : laws) resistances.push_back(law.resistance);
  return resistances;
}

LocalLaws local_laws(const std::vector<ElectrodeLaw>& laws) {
  LocalLaws local(resistances_of(laws));
  const bool curved =
      std::any_of(laws.begin(), laws.end(),
                  [](const ElectrodeLaw& law) { return law.tangent; });
  if (!curved) return local;
  for (const ElectrodeLaw& law : laws) local.tangents.push_back(law.tangent);
  return local;
}

VectorXd drives(const std::vector<ElectrodeLaw>& laws,
                const MatrixXd& conductance, double voltage) {
  return drives(laws, conductance, VectorXd::Constant(1, voltage));
}

VectorXd drives(const std::vector<ElectrodeLaw>& laws,
                const MatrixXd& conductance, const VectorXd& rails) {
  const auto m = static_cast<Index>(laws.size());
  VectorXd shifts = VectorXd::Ones(conductance.cols());
  VectorXd right = VectorXd::Zero(conductance.cols());
  bool simple = true;
  for (Index e = 0; e < m; ++e) {
    const ElectrodeLaw& law = laws[static_cast<std::size_t>(e)];
    shifts(e) = shift(law);
    right(e) = law.anode ? rails(static_cast<Index>(law.rectifier)) : 0;
    simple = simple && !law.floating && law.series == 0;
  }
  if (simple) return right + shifts;
  // U - series * current = rail, current = conductance (U + shifts); floating:
  // current = 0, divided by its own conductance to be of the others' size.
  const VectorXd shifted = conductance * shifts;
  MatrixXd system = MatrixXd::Identity(shifts.size(), shifts.size());
  for (Index e = 0; e < m; ++e) {
    const ElectrodeLaw& law = laws[static_cast<std::size_t>(e)];
    if (law.floating) {
      system.row(e) = conductance.row(e) / conductance(e, e);
      right(e) = -shifted(e) / conductance(e, e);
    } else {
      system.row(e) -= law.series * conductance.row(e);
      right(e) += law.series * shifted(e);
    }
  }
  return system.partialPivLu().solve(right) + shifts;
}

}  // namespace thinspot::solver
