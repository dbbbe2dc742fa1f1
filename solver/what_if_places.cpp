#include "solver/what_if_places.hpp"

#include "solver/schedule.hpp"
#include "solver/window.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::VectorXd;

/// How often the whole change of thickness counts as the whole of the arc.
constexpr double kByChange = 2;

bool lies_in(const Extreme& window, const Stretches& set, double length) {
  const double inset = 1e-9 * length;
  return std::any_of(set.begin(), set.end(), [&](const Stretch& s) {
    for (double turn : {-length, 0.0, length})
      if (window.from + turn >= s.from - inset &&
          window.to + turn <= s.to + inset)
        return true;
    return false;
  });
}

/// Windows along a loop in the order of arc, none twice.
std::vector<Extreme> windows_along(const Surface& surface, std::size_t l,
                                   const VectorXd& thickness, double size) {
  const SurfaceLoop& loop = surface.loops[l];
  const Profile profile(loop, thickness);
  std::vector<Extreme> all;
  const Stretches closed =
      common(wetted(loop), complement(loop.open, loop.length), loop.length);
  for (const Stretches& set : {loop.open, loop.judged, closed})
    for (Extreme e : profile.averages(set, size)) {
      e.of_loop = l;
      e.arc = wrapped(e.arc, loop.length);
      all.push_back(e);
    }
  std::sort(all.begin(), all.end(),
            [](const Extreme& a, const Extreme& b) { return a.arc < b.arc; });
  const auto same = [&](const Extreme& a, const Extreme& b) {
    return std::abs(a.from - b.from) + std::abs(a.to - b.to) <
           1e-9 * loop.length;
  };
  all.erase(std::unique(all.begin(), all.end(), same), all.end());
  return all;
}

/// Beside an extreme, which moves a little as the knobs are turned.
constexpr std::array<std::size_t, 12> kBeside{0, 1,  2,  3,  4,  6,
                                              8, 12, 16, 24, 32, 48};

void keep_beside(const std::vector<Extreme>& all, const Extreme& e,
                 std::vector<bool>& keep) {
  const auto at = std::lower_bound(
      all.begin(), all.end(), e.arc,
      [](const Extreme& a, double arc) { return a.arc < arc; });
  const auto k = static_cast<std::size_t>(at - all.begin());
  for (std::size_t step : kBeside) {
    if (k + step < all.size()) keep[k + step] = true;
    if (step <= k && k - step < all.size()) keep[k - step] = true;
  }
}

/// The ends of stretches, and where thickness turns.
std::vector<bool> needed(const std::vector<Extreme>& all,
                         const SurfaceLoop& loop) {
  std::vector<bool> keep(all.size(), false);
  const auto near_end = [&](const Extreme& e, const Stretches& set) {
    return std::any_of(set.begin(), set.end(), [&](const Stretch& s) {
      for (double turn : {-loop.length, 0.0, loop.length})
        if (std::abs(e.from + turn - s.from) < 1e-9 * loop.length ||
            std::abs(e.to + turn - s.to) < 1e-9 * loop.length)
          return true;
      return false;
    });
  };
  for (std::size_t k = 0; k < all.size(); ++k) {
    const bool ends = k == 0 || k + 1 == all.size();
    const bool turns = !ends && (all[k].value - all[k - 1].value) *
                                        (all[k + 1].value - all[k].value) <=
                                    0;
    keep[k] = ends || turns || near_end(all[k], loop.open) ||
              near_end(all[k], loop.judged);
  }
  return keep;
}

/// As many more as there is room for, evenly over arc and change.
void thin_out(std::vector<Extreme>& all, std::vector<bool> keep,
              std::size_t most, double range, double length) {
  if (all.size() <= most) return;
  std::vector<double> along(all.size(), 0);
  for (std::size_t k = 1; k < all.size(); ++k)
    along[k] =
        along[k - 1] + (all[k].arc - all[k - 1].arc) / length +
        (range > 0
             ? kByChange * std::abs(all[k].value - all[k - 1].value) / range
             : 0);
  const auto needed =
      static_cast<std::size_t>(std::count(keep.begin(), keep.end(), true));
  if (needed > most) keep.assign(all.size(), false);
  const std::size_t room = needed > most ? most : most - needed;
  std::size_t k = 0;
  for (std::size_t n = 0; n < room; ++n) {
    const double at = along.back() * (static_cast<double>(n) + 0.5) /
                      static_cast<double>(room);
    while (k + 1 < all.size() && along[k] < at) ++k;
    keep[k] = true;
  }
  std::size_t n = 0;
  std::erase_if(all, [&](const Extreme&) { return !keep[n++]; });
}

int face_index(std::vector<std::string>& faces, const std::string& name) {
  const auto found = std::find(faces.begin(), faces.end(), name);
  if (found != faces.end()) return static_cast<int>(found - faces.begin());
  faces.push_back(name);
  return static_cast<int>(faces.size()) - 1;
}

/// The windows as they lie on another coat of the same part: by arc, which is
/// the same.
std::vector<Extreme> chosen(const Coat& own, const CoatSpread& spread,
                            double size) {
  const std::array<Extreme, 3> extremes{spread.least, spread.largest,
                                        spread.least_judged};
  std::vector<Extreme> all;
  double length = 0;
  for (const SurfaceLoop& loop : own.surface.loops) length += loop.length;
  const double range =
      spread.thickness.max - std::min(spread.thickness.min, 0.0);
  for (std::size_t l = 0; l < own.surface.loops.size(); ++l) {
    const SurfaceLoop& loop = own.surface.loops[l];
    std::vector<Extreme> along =
        windows_along(own.surface, l, own.thickness, size);
    const auto most = std::max<std::size_t>(
        8, static_cast<std::size_t>(static_cast<double>(kMostPlaces - 3) *
                                    loop.length / length));
    std::vector<bool> keep = needed(along, loop);
    for (Extreme e : extremes) {
      if (e.of_loop != l || !(e.to > e.from)) continue;
      e.arc = wrapped(e.arc, loop.length);
      keep_beside(along, e, keep);
    }
    thin_out(along, keep, most, range, loop.length);
    all.insert(all.end(), along.begin(), along.end());
  }
  for (Extreme e : extremes) {
    if (!(e.to > e.from)) continue;
    e.arc = wrapped(e.arc, own.surface.loops[e.of_loop].length);
    all.push_back(e);
  }
  std::stable_sort(
      all.begin(), all.end(), [](const Extreme& a, const Extreme& b) {
        return a.of_loop != b.of_loop ? a.of_loop < b.of_loop : a.arc < b.arc;
      });
  return all;
}

}  // namespace

WhatIfPart what_if_part(const Schedule& schedule, const Case& c,
                        std::size_t part, const mesh::Outline& drawn,
                        const Coat& coat) {
  const Coat& own = schedule.coats[part];
  const Model& model = schedule.steps.front().solved->model;
  WhatIfPart p;
  p.name = solid_of(model, model.surfaces[part]).spec.key;
  p.area = coat.area;
  p.node_areas = VectorXd::Zero(coat.density.rows());
  for (std::size_t l = 0; l < coat.weights.size(); ++l)
    for (std::size_t k = 0; k < coat.weights[l].size(); ++k)
      for (std::size_t j = 0; j < 3; ++j)
        p.node_areas(coat.surface.loops[l].edges[k].node[j]) +=
            coat.weights[l][k](static_cast<Index>(j));
  for (const Extreme& window :
       chosen(own, schedule.spreads[part], c.accuracy.averaging_length)) {
    const SurfaceLoop& loop = own.surface.loops[window.of_loop];
    const PlaceOnLoop on = place_at(loop, drawn, window.arc);
    const mesh::Curve& curve = mesh::curve_of(drawn, loop.loop, on.curve);
    WhatIfPlace place;
    place.window = window;
    place.at = mesh::point_at(curve, on.t);
    place.loop = static_cast<std::size_t>(loop.loop);
    place.of_length = loop.length;
    place.face = face_index(p.faces, curve.face);
    place.open = lies_in(window, loop.open, loop.length);
    place.judged = lies_in(window, loop.judged, loop.length);
    place.weights =
        window_average(coat.surface, window, coat.density.rows()).weights;
    p.places.push_back(std::move(place));
  }
  return p;
}

}  // namespace thinspot::solver
