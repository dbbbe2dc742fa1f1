#include "solver/what_if_samples.hpp"

#include "mesh/errors.hpp"
#include "solver/polarization.hpp"
#include "solver/rescaling.hpp"
#include "solver/step_case.hpp"
#include "solver/what_if.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

namespace {

/// Factor by which resistances of electrodes go apart in samples.
constexpr double kApart = 1.5;

/// Halton's sequence: evenly spread however many are taken.
double halton(int k, int base) {
  double value = 0, digit = 1;
  for (++k; k > 0; k /= base) {
    digit /= base;
    value += digit * (k % base);
  }
  return value;
}

double spread_over(const WhatIfRange& range, double share) {
  return range.low * std::pow(range.high / range.low, share);
}

std::vector<bool> held_in(const SolvedStep& step) {
  std::vector<bool> held;
  for (const ElectrodeLaw& law : step.solved->outcome.point.laws)
    held.push_back(law.resistance == 0);
  return held;
}

}  // namespace

std::vector<Group> groups_of(const Schedule& s) {
  std::vector<Group> groups;
  for (std::size_t k = 0; k < s.steps.size(); ++k) {
    const SolvedStep& step = s.steps[k];
    const std::vector<bool> held = held_in(step);
    const auto alike = [&](const Group& g) {
      if (g.turnable != step.turnable || g.held != held) return false;
      return step.turnable >= 0 ||
             same_places(s.steps[g.phases.front()].used.steps.front(),
                         step.used.steps.front());
    };
    auto found = std::find_if(groups.begin(), groups.end(), alike);
    if (found == groups.end()) {
      groups.push_back({{}, nullptr, step.turnable, held, {}, {}});
      found = groups.end() - 1;
    }
    found->phases.push_back(k);
    const Model& model = step.solved->model;
    if (!found->model ||
        model.mesh.nodes.cols() > found->model->mesh.nodes.cols())
      found->model = &model;
  }
  return groups;
}

Sampler::Sampler(const Schedule& s, const Group& g)
    : schedule_(s),
      group_(g),
      curved_(std::any_of(g.phases.begin(), g.phases.end(), [&](auto k) {
        return has_curved_laws(s.steps[k].used);
      })) {}

std::optional<Sample> Sampler::operator()(int k) const {
  const auto n = static_cast<std::size_t>(k);
  const SolvedStep& step =
      schedule_.steps[group_.phases[n % group_.phases.size()]];
  Sample sample;
  sample.turn =
      std::min(group_.turned.size() - 1,
               static_cast<std::size_t>(
                   halton(k, 7) * static_cast<double>(group_.turned.size())));
  const Case c = turned_by(step.used, spread_over(kCurrentRange, halton(k, 2)),
                           spread_over(kConductivityRange, halton(k, 3)),
                           spread_over(kPolarizationRange, halton(k, 5)));
  sample.conductivity = c.solution.conductivity.value;
  try {
    sample.point = curved_ ? find_working_point(group_.turned[sample.turn], c,
                                                group_.model->scale)
                           : settled(sample.turn, c, step, k);
  } catch (const CaseError&) {
    return std::nullopt;  // no current that way
  }
  if (!is_resolved(sample, step)) return std::nullopt;
  return sample;
}

/// Straight laws need no search: about where they would settle is as good to
/// learn from, at a fifth of the cost. Electrodes go apart a little, as they
/// do where currents share themselves out anew.
WorkingPoint Sampler::settled(std::size_t turn, const Case& c,
                              const SolvedStep& step, int k) const {
  const Response& response = group_.turned[turn];
  WorkingPoint w;
  w.laws = step.solved->outcome.point.laws;
  for (std::size_t e = 0; e < w.laws.size(); ++e) {
    ElectrodeLaw& law = w.laws[e];
    if (law.floating) continue;
    const std::size_t solid = response.electrodes().each[e].solid;
    const Polarization& now = polarization_of(c, solid);
    const Polarization& before = polarization_of(step.used, solid);
    if (before.resistance.value > 0)
      law.resistance *= now.resistance.value / before.resistance.value;
    if (rescales(now))
      law.resistance /= spread_over(kCurrentRange, halton(k, 2));
    law.resistance *=
        std::pow(kApart, 2 * halton(k + 17 * static_cast<int>(e), 11) - 1);
  }
  w.answers =
      response.answer(c.solution.conductivity.value, local_laws(w.laws));
  operate(w, c, group_.model->scale);
  return w;
}

bool Sampler::is_resolved(const Sample& sample, const SolvedStep& step) const {
  const auto& before = step.solved->outcome.point.laws;
  const auto& now = sample.point.laws;
  const double conductivity =
      sample.conductivity / step.used.solution.conductivity.value;
  for (std::size_t e = 0; e < now.size(); ++e)
    if (!now[e].anode && !now[e].floating && now[e].resistance > 0 &&
        conductivity * now[e].resistance <
            0.9 * kLeastResolved * before[e].resistance)
      return false;
  return true;
}

}  // namespace thinspot::solver
