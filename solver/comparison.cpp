#include "solver/comparison.hpp"

#include "mesh/errors.hpp"
#include "solver/compared_figures.hpp"
#include "solver/same_outline.hpp"
#include "solver/sliding_mean.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

namespace {

/// Nearer than this share of the way a place is a point's own.
constexpr double kAtPoint = 1e-3;
/// Below this nothing is a difference, whatever it is a share of [m].
constexpr double kNoDifference = 1e-12;

/// Whether two thicknesses differ by more than files and points resolve.
bool differ(const PartComparison& c, double a, double b) {
  const double least =
      c.resolved * std::max(std::abs(a), std::abs(b)) + kNoDifference;
  return std::abs(b - a) > least;
}

const char* kind_of(mesh::Cut cut) {
  return cut == mesh::Cut::axisymmetric ? "axisymmetric" : "planar";
}

void check_alike(const KeptResult& a, const KeptResult& b) {
  const bool round_a = a.result.section.cut == mesh::Cut::axisymmetric;
  const bool round_b = b.result.section.cut == mesh::Cut::axisymmetric;
  if (round_a != round_b)
    throw InputError(
        b.name,
        fmt::format("is of an {} section, the first result of a {} one",
                    kind_of(b.result.section.cut),
                    kind_of(a.result.section.cut)),
        "compare sections of one kind");
  const std::size_t n = a.result.parts.size(), m = b.result.parts.size();
  if (n != m)
    throw InputError(b.name,
                     fmt::format("has {} part{}, the first result {}", m,
                                 m == 1 ? "" : "s", n),
                     "compare results with as many parts each");
}

/// Index of each of a's parts among b's.
std::vector<std::size_t> partners(const Result& a, const Result& b) {
  std::vector<std::size_t> found;
  for (const PartResult& part : a.parts)
    for (std::size_t k = 0; k < b.parts.size(); ++k)
      if (b.parts[k].name == part.name &&
          std::find(found.begin(), found.end(), k) == found.end()) {
        found.push_back(k);
        break;
      }
  std::vector<std::size_t> order(a.parts.size());
  for (std::size_t k = 0; k < order.size(); ++k) order[k] = k;
  return found.size() == order.size() ? found : order;
}

/// A place of b at which both neighbours carry a coating; of one right at the
/// end of what is plated that neighbour alone.
std::optional<Between> plated(const PartResult& b, Between place,
                              double rounding) {
  const SurfacePoint &from = b.surface[place.from], &to = b.surface[place.to];
  if (from.wetted && to.wetted) return place;
  const double way = (to.at - from.at).norm();
  if (from.wetted && place.share * way <= rounding)
    return Between{place.from, place.from, 0};
  if (to.wetted && (1 - place.share) * way <= rounding)
    return Between{place.to, place.to, 0};
  // Where dry and plated surface meet there are points of both at one place.
  if (place.share * way <= rounding && place.from > 0) {
    const SurfacePoint& before = b.surface[place.from - 1];
    if (before.wetted && (before.at - from.at).norm() <= rounding)
      return Between{place.from - 1, place.from - 1, 0};
  }
  return std::nullopt;
}

void lay_on(PartComparison& out, const PartResult& a, const PartResult& b,
            const LoopMatch& match) {
  const double rounding = 1e-5 * match.b.length();
  for (std::size_t k = match.a.first; k < match.a.last; ++k) {
    if (!a.surface[k].wetted) continue;
    const auto place =
        plated(b, place_on(b, match, a.surface[k].arc), rounding);
    if (!place) continue;
    const SurfacePoint &from = b.surface[place->from],
                       &to = b.surface[place->to];
    const auto at = static_cast<Eigen::Index>(k);
    out.both[k] = 1;
    if (place->share > kAtPoint && place->share < 1 - kAtPoint)
      out.resolved = kByPoints;
    out.thickness(at) = place->of(from.thickness, to.thickness);
    out.current_density(at) =
        place->of(from.current_density, to.current_density);
    if (!out.band.empty())
      out.band[k] = {
          place->of(from.thickness_band.low, to.thickness_band.low),
          place->of(from.thickness_band.high, to.thickness_band.high)};
  }
}

/// What counts in the first result, or all that is compared where nothing does.
std::vector<char> looked_at(const PartComparison& c, const PartResult& a) {
  std::vector<char> judged(c.both.size(), 0);
  for (std::size_t k = 0; k < judged.size(); ++k)
    judged[k] = c.both[k] && a.surface[k].judged;
  const bool any = std::find(judged.begin(), judged.end(), 1) != judged.end();
  return any ? judged : c.both;
}

void find_extremes(PartComparison& c, const KeptResult& kept_a,
                   const std::vector<LoopMatch>& matches) {
  const PartResult& a = kept_a.result.parts[c.a];
  const std::vector<char> counts = looked_at(c, a);
  const bool banded = has_bands(kept_a) && !c.band.empty();
  double most = 0, least = 0;
  for (const LoopMatch& match : matches) {
    const SlidingMean mean(a, match.a.first, match.a.last, c.both,
                           kComparedOver);
    for (std::size_t k = match.a.first; k < match.a.last; ++k) {
      if (!counts[k]) continue;
      const auto of_a = [&](std::size_t n) { return a.surface[n].thickness; };
      const auto of_b = [&](std::size_t n) {
        return c.thickness(static_cast<Eigen::Index>(n));
      };
      Differing d{.point = k, .a = mean.at(k, of_a), .b = mean.at(k, of_b)};
      if (d.by() <= most && d.by() >= least) continue;
      if (!differ(c, d.a, d.b)) continue;
      if (banded) d.beyond = apart(a.surface[k].thickness_band, c.band[k]);
      std::optional<Differing>& best = d.by() > 0 ? c.gain : c.loss;
      (d.by() > 0 ? most : least) = d.by();
      best = d;
    }
  }
  for (std::optional<Differing>* found : {&c.gain, &c.loss}) {
    if (!*found) continue;
    const SurfacePoint& p = a.surface[(*found)->point];
    (*found)->face = a.faces[static_cast<std::size_t>(p.face)].name;
    (*found)->where = kept_place_in_words(kept_a, c.a, (*found)->point);
  }
}

void add_shares(PartComparison& c, const KeptResult& kept_a) {
  const PartResult& a = kept_a.result.parts[c.a];
  const bool banded = has_bands(kept_a) && !c.band.empty();
  double thicker = 0, thinner = 0, beyond = 0;
  for (std::size_t k = 0; k < c.both.size(); ++k) {
    if (!c.both[k]) continue;
    const SurfacePoint& p = a.surface[k];
    const double in_b = c.thickness(static_cast<Eigen::Index>(k));
    c.area += p.weight;
    if (differ(c, p.thickness, in_b))
      (in_b > p.thickness ? thicker : thinner) += p.weight;
    if (banded && apart(a.surface[k].thickness_band, c.band[k]))
      beyond += p.weight;
  }
  if (!(c.area > 0)) return;
  c.thicker = thicker / c.area;
  c.thinner = thinner / c.area;
  if (banded) c.beyond = beyond / c.area;
}

double largest(const PartComparison& c) {
  return std::max(c.gain ? c.gain->by() : 0, c.loss ? -c.loss->by() : 0);
}

}  // namespace

bool apart(const Interval& a, const Interval& b) {
  return a.low > b.high || b.low > a.high;
}

Comparison compared(const KeptResult& a, const KeptResult& b) {
  check_alike(a, b);
  Comparison out;
  const std::vector<std::size_t> pairs = partners(a.result, b.result);
  for (std::size_t k = 0; k < pairs.size(); ++k) {
    PartComparison c{.a = k, .b = pairs[k]};
    const PartResult &in_a = a.result.parts[c.a], &in_b = b.result.parts[c.b];
    const std::vector<LoopMatch> matches = match_outlines(in_a, in_b, b.name);
    const std::size_t n = in_a.surface.size();
    c.both.assign(n, 0);
    c.thickness.setZero(static_cast<Eigen::Index>(n));
    c.current_density.setZero(static_cast<Eigen::Index>(n));
    if (has_bands(b)) c.band.resize(n);
    for (const LoopMatch& match : matches) lay_on(c, in_a, in_b, match);
    c.shift = matches.front().shift;
    find_extremes(c, a, matches);
    add_shares(c, a);
    if (!(c.area > 0))
      throw InputError(b.name,
                       fmt::format("plates nothing of {} that the first result "
                                   "plates",
                                   in_b.name),
                       "compare results that have plated surface in common");
    out.parts.push_back(std::move(c));
  }
  for (std::size_t k = 1; k < out.parts.size(); ++k)
    if (largest(out.parts[k]) > largest(out.parts[out.most])) out.most = k;
  out.figures = compared_figures(a.result, b.result);
  return out;
}

}  // namespace thinspot::solver
