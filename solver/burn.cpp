#include "solver/burn.hpp"

#include "solver/place_words.hpp"
#include "solver/profile.hpp"
#include "solver/result.hpp"
#include "solver/schedule.hpp"

#include <algorithm>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::VectorXd;

struct Threshold {
  Burn kind;
  double share;
};

/// Worst first. A density that the user gives is where burning begins; nothing
/// is known of what comes before or after.
std::vector<Threshold> thresholds(bool given) {
  if (given) return {{Burn::burnt, 1}};
  return {
      {Burn::powdery, 1}, {Burn::burnt, kBurntShare}, {Burn::dull, kDullShare}};
}

BurnMap limits_of(const Case& c) {
  BurnMap map;
  if (c.target.burning_current_density) {
    map.limit = *c.target.burning_current_density;
    map.given = true;
  } else if (c.solution.limiting_current_density) {
    map.limit = c.solution.limiting_current_density->value;
    map.limit_plus_minus = c.solution.limiting_current_density->plus_minus;
  }
  return map;
}

/// Where averages along one stretch lie above a value, straight between them.
struct Above {
  double from, to, at, peak;
};

std::vector<Above> above(const std::vector<Extreme>& averages, double least) {
  std::vector<Above> all;
  const auto crossing = [&](const Extreme& a, const Extreme& b) {
    const double rise = b.value - a.value;
    const double t = rise != 0 ? (least - a.value) / rise : 0;
    return a.arc + std::clamp(t, 0.0, 1.0) * (b.arc - a.arc);
  };
  bool inside = false;
  for (std::size_t k = 0; k < averages.size(); ++k) {
    const Extreme& here = averages[k];
    if (here.value < least) {
      if (inside) all.back().to = crossing(averages[k - 1], here);
      inside = false;
      continue;
    }
    if (!inside) {
      const double from = k > 0 ? crossing(averages[k - 1], here) : here.from;
      all.push_back({from, here.to, here.arc, here.value});
      inside = true;
    }
    all.back().to = here.to;
    if (here.value > all.back().peak) {
      all.back().peak = here.value;
      all.back().at = here.arc;
    }
  }
  return all;
}

/// Two that meet at arc 0 of a loop that is open all round are one.
void join_at_seam(std::vector<Above>& all, double length) {
  if (all.size() < 2) return;
  const double near = 1e-9 * length;
  Above& first = all.front();
  Above& last = all.back();
  if (first.from > near || last.to < length - near) return;
  last.to = first.to + length;
  if (first.peak > last.peak) {
    last.peak = first.peak;
    last.at = first.at;
  }
  all.erase(all.begin());
}

/// The worst kind that each place reaches; lesser ones about it are in the same
/// span.
class OnPart {
 public:
  OnPart(const Schedule& schedule, const Case& c, const BurnMap& map,
         std::size_t part)
      : schedule_(schedule),
        c_(c),
        map_(map),
        part_(part),
        coat_(schedule.coats[part]) {
    const Model& model = schedule.steps.front().solved->model;
    const std::string& key = solid_of(model, model.surfaces[part]).spec.key;
    outline_ =
        &schedule.drawn.solids[mesh::index_of(schedule.drawn, key)].outline;
  }

  /// Averages at the part's points; 0 where nothing is plated.
  VectorXd at_points(const std::vector<SurfacePoint>& points,
                     const VectorXd& density) const {
    VectorXd all = VectorXd::Zero(static_cast<Index>(points.size()));
    for (const SurfaceLoop& loop : coat_.surface.loops) {
      const Profile profile(loop, density);
      for (std::size_t k = 0; k < points.size(); ++k)
        if (points[k].loop == loop.loop && points[k].wetted)
          all(static_cast<Index>(k)) = average(profile, loop, points[k].arc);
    }
    return all;
  }

  std::vector<BurnSpan> in_step(std::size_t step,
                                const VectorXd& density) const {
    std::vector<BurnSpan> spans;
    const std::vector<Threshold> all = thresholds(map_.given);
    for (const SurfaceLoop& loop : coat_.surface.loops) {
      const Profile profile(loop, density);
      for (const Stretch& open : loop.open) {
        const auto averages =
            profile.averages({open}, c_.accuracy.averaging_length);
        std::vector<Above> stretches =
            above(averages, all.back().share * *map_.limit);
        if (open.to - open.from >= loop.length * (1 - 1e-12))
          join_at_seam(stretches, loop.length);
        for (const Above& a : stretches)
          spans.push_back(span_of(step, loop, a, all));
      }
    }
    return spans;
  }

 private:
  /// Over a window about an arc that stays on its open stretch.
  double average(const Profile& profile, const SurfaceLoop& loop,
                 double arc) const {
    const double same = 1e-9 * loop.length;
    for (const Stretch& open : loop.open)
      for (const double a : {arc, arc + loop.length}) {
        if (a < open.from - same || a > open.to + same) continue;
        const double room = open.to - open.from;
        const double window = std::min(c_.accuracy.averaging_length, room);
        // Once round, nothing ends where arcs begin again.
        const bool closed = room >= loop.length * (1 - 1e-12);
        double from = a - 0.5 * window;
        if (!closed) from = std::clamp(from, open.from, open.to - window);
        return profile.integral(from, from + window) / window;
      }
    return 0;
  }

  BurnSpan span_of(std::size_t step, const SurfaceLoop& loop, const Above& a,
                   const std::vector<Threshold>& all) const {
    BurnSpan s;
    s.step = step;
    s.part = part_;
    s.loop = loop.loop;
    s.around = loop.length;
    s.from = a.from;
    s.to = a.to;
    s.at = wrapped(a.at, loop.length);
    s.peak = a.peak;
    s.share = a.peak / *map_.limit;
    for (const Threshold& t : all)
      if (a.peak >= t.share * *map_.limit) {
        s.kind = t.kind;
        break;
      }
    const PlaceOnLoop place = place_at(loop, *outline_, s.at);
    s.face = mesh::curve_of(*outline_, loop.loop, place.curve).face;
    s.where = place_in_words(schedule_.drawn, *outline_, loop.loop, place.curve,
                             place.t);
    return s;
  }

  const Schedule& schedule_;
  const Case& c_;
  const BurnMap& map_;
  std::size_t part_;
  const Coat& coat_;
  const mesh::Outline* outline_;
};

}  // namespace

BurnMap burn_map(const Schedule& schedule, const Case& c,
                 const Result& result) {
  BurnMap map = limits_of(c);
  if (!map.limit) return map;
  for (std::size_t p = 0; p < result.parts.size(); ++p) {
    const OnPart part(schedule, c, map, p);
    const std::vector<SurfacePoint>& points = result.parts[p].surface;
    VectorXd share = VectorXd::Zero(static_cast<Index>(points.size()));
    for (std::size_t k = 0; k < result.steps.size(); ++k) {
      VectorXd density;
      for (std::size_t n = 0; n < schedule.phases.size(); ++n) {
        if (schedule.phases[n].step != k) continue;
        const auto own = schedule.coats[p].density.col(static_cast<Index>(n));
        density = density.size() == 0 ? VectorXd(own)
                                      : VectorXd(density.cwiseMax(own));
      }
      share = share.cwiseMax(part.at_points(points, density) / *map.limit);
      const auto spans = part.in_step(k, density);
      map.spans.insert(map.spans.end(), spans.begin(), spans.end());
    }
    map.share.push_back(std::move(share));
  }
  std::stable_sort(map.spans.begin(), map.spans.end(),
                   [](const BurnSpan& a, const BurnSpan& b) {
                     return a.step != b.step ? a.step < b.step
                                             : a.peak > b.peak;
                   });
  return map;
}

bool holds(const BurnSpan& span, int loop, double arc) {
  const auto within = [&](double a) { return a >= span.from && a <= span.to; };
  return loop == span.loop && (within(arc) || within(arc + span.around));
}

bool burns(const BurnMap& map, std::size_t step) {
  return std::any_of(map.spans.begin(), map.spans.end(),
                     [&](const BurnSpan& s) {
                       return s.step == step && s.kind != Burn::dull;
                     });
}

}  // namespace thinspot::solver
