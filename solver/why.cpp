#include "solver/why.hpp"

#include "mesh/errors.hpp"
#include "solver/result.hpp"
#include "solver/schedule.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <memory>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::VectorXd;

/// What the same steps would leave where each case is changed, every step
/// bringing as much to the parts as it does.
Laid laid_with(const Schedule& s, const Case& c,
               const std::function<void(Case&)>& change) {
  std::vector<std::shared_ptr<const Outcome>> outcomes;
  std::vector<const Outcome*> seen;
  std::vector<double> growth;
  for (std::size_t k = 0; k < s.steps.size(); ++k) {
    const SolvedStep& step = s.steps[k];
    const auto same = std::find_if(
        s.steps.begin(), s.steps.begin() + static_cast<std::ptrdiff_t>(k),
        [&](const SolvedStep& other) { return other.solved == step.solved; });
    const auto before = static_cast<std::size_t>(same - s.steps.begin());
    if (before < k) {
      outcomes.push_back(outcomes[before]);
    } else {
      Case changed = step.used;
      changed.probes.clear();
      change(changed);
      outcomes.push_back(std::make_shared<const Outcome>(
          evaluate(step.solved->model, changed)));
    }
    seen.push_back(outcomes.back().get());
    const auto to_parts = [](const Outcome& o) {
      double sum = 0;
      for (const PartOutcome& part : o.parts) sum += part.current;
      return sum;
    };
    const double now = to_parts(*seen.back());
    growth.push_back(
        now > 0 ? step.growth * to_parts(step.solved->outcome) / now : 0);
  }
  return lay_down(s, c, seen, growth);
}

Unevenness unevenness(const Coat& coat, const CoatSpread& spread) {
  Unevenness u;
  const double mean = volume_under(coat, coat.thickness) / coat.area;
  if (!(mean > 0)) return u;
  const VectorXd off = (coat.thickness.array() - mean).abs();
  // In a corner that shape alone leaves bare the mesh may undershoot nothing.
  u.least = std::max(0.0, spread.thickness.min / mean);
  u.largest = spread.thickness.max / mean;
  u.spread = volume_under(coat, off) / coat.area / mean;
  return u;
}

/// Over all parts, by area, against the mean of all.
double whole_spread(const std::vector<Coat>& coats) {
  double volume = 0, area = 0, off = 0;
  for (const Coat& coat : coats) {
    volume += volume_under(coat, coat.thickness);
    area += coat.area;
  }
  const double mean = volume / area;
  for (const Coat& coat : coats)
    off += volume_under(coat, (coat.thickness.array() - mean).abs());
  return mean > 0 ? off / area / mean : 0;
}

/// A quantity at the nodes of a coat, at places along its surface. Two points
/// at one place are the two sides of a jump.
class AlongSurface {
 public:
  AlongSurface(const Coat& coat, const std::vector<SurfacePoint>& points)
      : coat_(coat), points_(points) {}

  VectorXd thickness() const {
    VectorXd all = VectorXd::Zero(static_cast<Index>(points_.size()));
    for (std::size_t k = 0; k < points_.size(); ++k)
      if (points_[k].wetted) all(static_cast<Index>(k)) = at(k);
    return all;
  }

 private:
  double at(std::size_t k) const {
    const SurfacePoint& p = points_[k];
    for (const SurfaceLoop& loop : coat_.surface.loops) {
      if (loop.loop != p.loop) continue;
      const double same = 1e-9 * loop.length;
      const auto meets = [&](std::size_t other) {
        return points_[other].loop == p.loop && points_[other].wetted &&
               std::abs(points_[other].arc - p.arc) <= same;
      };
      const bool left = k + 1 < points_.size() && meets(k + 1);
      const bool right = k > 0 && meets(k - 1);
      double found = 0;
      for (const SurfaceEdge& e : loop.edges)
        for (const double arc : {p.arc, p.arc + loop.length}) {
          if (arc < e.from - same || arc > e.to + same) continue;
          const double t = (arc - e.from) / (e.to - e.from);
          found = value(e, std::clamp(t, 0.0, 1.0));
          const bool ends = std::abs(arc - e.to) <= same;
          const bool begins = std::abs(arc - e.from) <= same;
          if ((left && ends) || (right && begins)) return found;
        }
      return found;
    }
    return 0;
  }

  double value(const SurfaceEdge& e, double t) const {
    const auto& v = coat_.thickness;
    return v(e.node[0]) * (1 - t) * (1 - 2 * t) +
           4 * v(e.node[2]) * t * (1 - t) + v(e.node[1]) * t * (2 * t - 1);
  }

  const Coat& coat_;
  const std::vector<SurfacePoint>& points_;
};

void without_polarization(Case& c) {
  c.cathode = {};
  // Where it touches, a clip of another potential would draw current without
  // bound.
  for (Clip& clip : c.clips) clip.contact_resistance = {};
}

/// The same steps with one efficiency for all: shape knows of no other.
Schedule at_one_efficiency(const Schedule& schedule) {
  Schedule level = schedule;
  for (SolvedStep& step : level.steps)
    step.used.solution.efficiency_table.clear();
  return level;
}

bool holds_voltage(const Supply& s) { return s.voltage.has_value(); }

bool any_voltage(const Schedule& s) {
  return std::any_of(s.steps.begin(), s.steps.end(), [](const SolvedStep& k) {
    const auto& several = k.used.rectifiers;
    return holds_voltage(k.used.supply) ||
           std::any_of(several.begin(), several.end(), [](const Rectifier& r) {
             return holds_voltage(r.supply);
           });
  });
}

void halve(Supply& s) {
  if (s.current) s.current->value *= 0.5;
  if (s.current_density) s.current_density->value *= 0.5;
}

void halve_current(Case& c) {
  halve(c.supply);
  for (Rectifier& r : c.rectifiers) halve(r.supply);
}

std::optional<double> spread_with(const Schedule& s, const Case& c,
                                  const std::function<void(Case&)>& change) {
  try {
    return whole_spread(laid_with(s, c, change).coats);
  } catch (const CaseError&) {
  }
  return std::nullopt;
}

}  // namespace

std::optional<Why> why_of(const Schedule& schedule, const Result& result,
                          const Progress& progress) {
  constexpr std::size_t kAll = 3;  // set-ups that are asked for
  progress.piece(0, kAll).at(0);
  const Case& c = result.used;
  Laid ideal;
  try {
    ideal = laid_with(
        schedule.by_density() ? at_one_efficiency(schedule) : schedule, c,
        without_polarization);
  } catch (const CaseError&) {
    return std::nullopt;
  }
  progress.piece(1, kAll).at(0);
  Why why;
  for (std::size_t p = 0; p < result.parts.size(); ++p) {
    WhyPart& part = why.parts.emplace_back();
    part.actual = unevenness(schedule.coats[p], schedule.spreads[p]);
    part.ideal = unevenness(ideal.coats[p], ideal.spreads[p]);
    const double mean = volume_under(ideal.coats[p], ideal.coats[p].thickness) /
                        ideal.coats[p].area;
    part.thickness =
        AlongSurface(ideal.coats[p], result.parts[p].surface).thickness();
    if (mean > 0)
      part.thickness = part.thickness.cwiseMax(0.0) *
                       (result.parts[p].thickness.value.mean / mean);
  }
  why.actual = whole_spread(schedule.coats);
  why.ideal = whole_spread(ideal.coats);
  // Where it is even already what is left is rounding.
  constexpr double kEven = 1e-6;
  if (why.ideal > kEven) why.relief = 1 - why.actual / why.ideal;
  if (!any_voltage(schedule))
    why.half_current = spread_with(schedule, c, halve_current);
  progress.piece(2, kAll).at(0);
  why.twice_conductivity = spread_with(schedule, c, [](Case& changed) {
    changed.solution.conductivity.value *= 2;
  });
  return why;
}

}  // namespace thinspot::solver
