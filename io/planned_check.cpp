#include "io/planned_pieces.hpp"
#include "solver/step_case.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace thinspot::io {

namespace {

using mesh::Solid;
using solver::Case;
using solver::Quantity;
using solver::Supply;

/// Of what is written with seven digits, and of a place that is a sum of such.
constexpr double kRounding = 1e-6, kPlace = 1e-7;

bool close(double a, double b) {
  return std::abs(a - b) <=
         kRounding * std::max(std::abs(a), std::abs(b)) + 1e-12;
}

bool close(const Quantity& a, const Quantity& b) {
  return close(a.value, b.value) && close(a.plus_minus, b.plus_minus) &&
         a.evenly == b.evenly;
}

template <class T>
bool close(const std::optional<T>& a, const std::optional<T>& b) {
  return a.has_value() == b.has_value() && (!a || close(*a, *b));
}

bool close(const mesh::Point& a, const mesh::Point& b) {
  return (a - b).norm() <= kPlace;
}

bool close(const Supply& a, const Supply& b) {
  return close(a.current, b.current) &&
         close(a.current_density, b.current_density) &&
         close(a.voltage, b.voltage) &&
         close(a.voltage_limit, b.voltage_limit) &&
         close(a.lead_resistance, b.lead_resistance) && a.adapter == b.adapter;
}

bool close(const mesh::Sizes& a, const mesh::Sizes& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](const auto& x, const auto& y) {
                      return x.first == y.first && close(x.second, y.second);
                    });
}

/// A clip beside the part is read as standing in its place.
bool same_place(const Solid& a, const Solid& b) {
  if (a.role == mesh::Role::clip && a.side) return true;
  if (a.side != b.side) return false;
  return a.side ? close(a.gap, b.gap) : close(a.at, b.at);
}

bool same_solid(const Solid& a, const Solid& b) {
  return a.role == b.role && a.shape == b.shape && close(a.sizes, b.sizes) &&
         close(a.turn, b.turn) && close(a.axis, b.axis) && same_place(a, b);
}

std::string solids(const Case& planned, const Case& read) {
  for (const Solid& s : planned.section.solids) {
    const Solid* other = mesh::find_solid(read.section, s.key);
    if (!other || !same_solid(s, *other)) return s.key;
  }
  for (const Solid& s : read.section.solids)
    if (!mesh::find_solid(planned.section, s.key)) return s.key;
  return "";
}

template <class Things>
bool same_names(const Things& a, const Things& b) {
  return std::is_permutation(
      a.begin(), a.end(), b.begin(), b.end(),
      [](const auto& x, const auto& y) { return x.name == y.name; });
}

bool same_mask(const mesh::Mask& a, const mesh::Mask& b) {
  return a.key == b.key && a.on == b.on && a.faces == b.faces &&
         a.between.has_value() == b.between.has_value() &&
         (!a.between || (close((*a.between)[0], (*b.between)[0]) &&
                         close((*a.between)[1], (*b.between)[1])));
}

bool same_turning(const std::optional<solver::Turning>& a,
                  const std::optional<solver::Turning>& b) {
  return a.has_value() == b.has_value() &&
         (!a || (a->positions == b->positions && close(a->dwell, b->dwell) &&
                 close(a->rate, b->rate)));
}

/// All that the step changes, in its case.
bool same_step(const Case& planned, const Case& read, std::size_t k) {
  const solver::Step &a = planned.steps[k], &b = read.steps[k];
  const Case x = solver::case_of_step(planned, k),
             y = solver::case_of_step(read, k);
  return close(a.duration, b.duration) && a.motion.flip == b.motion.flip &&
         close(a.motion.turn, b.motion.turn) &&
         same_turning(a.turning, b.turning) && a.off == b.off &&
         a.lifted == b.lifted && same_names(x.clips, y.clips) &&
         close(x.supply, y.supply) &&
         std::equal(x.rectifiers.begin(), x.rectifiers.end(),
                    y.rectifiers.begin(), y.rectifiers.end(),
                    [](const auto& p, const auto& q) {
                      return p.name == q.name && close(p.supply, q.supply);
                    }) &&
         close(a.temperature, b.temperature) &&
         close(a.conductivity, b.conductivity);
}

std::string steps(const Case& planned, const Case& read) {
  if (planned.steps.size() != read.steps.size()) return "step";
  for (std::size_t k = 0; k < planned.steps.size(); ++k)
    if (!same_step(planned, read, k)) return fmt::format("step.{}", k + 1);
  return "";
}

}  // namespace

std::string first_difference(const Case& planned, const Case& read) {
  if (const std::string key = solids(planned, read); !key.empty()) return key;
  if (!same_names(planned.anodes, read.anodes)) return "anode";
  if (!same_names(planned.thieves, read.thieves)) return "thief";
  if (!close(planned.section.tank.level, read.section.tank.level))
    return "tank.level";
  if (!std::equal(planned.section.masks.begin(), planned.section.masks.end(),
                  read.section.masks.begin(), read.section.masks.end(),
                  same_mask))
    return "mask";
  if (!std::equal(planned.probes.begin(), planned.probes.end(),
                  read.probes.begin(), read.probes.end(),
                  [](const auto& a, const auto& b) {
                    return a.name == b.name && close(a.at, b.at);
                  }))
    return "probe";
  if (!std::equal(planned.wires.begin(), planned.wires.end(),
                  read.wires.begin(), read.wires.end(),
                  [](const auto& a, const auto& b) {
                    return a.name == b.name && close(a.wetted, b.wetted);
                  }))
    return "wire";
  if (!close(planned.supply, read.supply)) return "supply";
  for (std::size_t k = 0; k < planned.rectifiers.size(); ++k)
    if (k >= read.rectifiers.size() ||
        !close(planned.rectifiers[k].supply, read.rectifiers[k].supply))
      return "rectifier";
  const auto& pairs = planned.correlated;
  if (!std::equal(pairs.begin(), pairs.end(), read.correlated.begin(),
                  read.correlated.end(), [](const auto& a, const auto& b) {
                    return a.of == b.of && close(a.by, b.by);
                  }))
    return "correlated";
  return steps(planned, read);
}

}  // namespace thinspot::io
