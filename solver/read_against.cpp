#include "solver/read_against.hpp"

#include "mesh/errors.hpp"
#include "solver/correlation.hpp"
#include "solver/draws.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace thinspot::solver {

namespace {

using mesh::Point;
using Of = Reading::Of;
using Where = Reading::Where;

constexpr const char* kLeaveOut = "thinspot fit uses it; leave it out here";
/// Meters show currents to two or three digits.
constexpr double kSameCurrent = 5e-3;

/// What the result says of one reading.
struct Answer {
  double value = 0;
  std::optional<Interval> band = {};
  double mesh_error = 0;
  std::optional<ReadAgainst::Place> place = {};
};

std::optional<Interval> if_any(const Interval& band) {
  if (band.high > band.low) return band;
  return std::nullopt;
}

/// A piece of plated surface between two neighbouring points.
struct Foot {
  std::size_t part = 0, from = 0, to = 0;
  double share = 0;
  double distance = std::numeric_limits<double>::infinity();
};

void look_between(const PartResult& p, std::size_t from, std::size_t to,
                  const Point& point, std::size_t part, Foot& best) {
  const SurfacePoint &a = p.surface[from], &b = p.surface[to];
  if (!a.wetted || !b.wetted) return;
  const Point way = b.at - a.at;
  const double square = way.squaredNorm();
  const double share =
      square > 0 ? std::clamp((point - a.at).dot(way) / square, 0.0, 1.0) : 0;
  const double distance = (a.at + share * way - point).norm();
  if (distance < best.distance) best = {part, from, to, share, distance};
}

Foot nearest_on(const KeptResult& kept, const Point& point,
                const std::optional<std::size_t>& copy) {
  Foot best;
  for (std::size_t part = 0; part < kept.result.parts.size(); ++part) {
    if (copy && *copy != part) continue;
    const PartResult& p = kept.result.parts[part];
    for (std::size_t first = 0, k = 1; k <= p.surface.size(); ++k) {
      const bool same =
          k < p.surface.size() && p.surface[k].loop == p.surface[first].loop;
      look_between(p, k - 1, same ? k : first, point, part, best);
      if (!same) first = k;
    }
  }
  return best;
}

double between(const Foot& foot, double from, double to) {
  return from + foot.share * (to - from);
}

Answer at_point(const KeptResult& kept, const Point& point,
                const std::optional<std::size_t>& copy) {
  const Foot foot = nearest_on(kept, point, copy);
  if (!std::isfinite(foot.distance))
    throw InputError("", "no surface is plated there", kLeaveOut);
  const auto& surface = kept.result.parts[foot.part].surface;
  const SurfacePoint &from = surface[foot.from], &to = surface[foot.to];
  Answer answer;
  answer.value = between(foot, from.thickness, to.thickness);
  answer.band =
      if_any({between(foot, from.thickness_band.low, to.thickness_band.low),
              between(foot, from.thickness_band.high, to.thickness_band.high)});
  const std::size_t near = foot.share < 0.5 ? foot.from : foot.to;
  const double arc =
      to.arc >= from.arc ? between(foot, from.arc, to.arc) : from.arc;
  answer.place = {foot.part, from.loop, arc, foot.distance,
                  kept_place_in_words(kept, foot.part, near)};
  return answer;
}

/// A figure of the part itself, put at the place that it is of.
Answer at_spot(const KeptResult& kept, std::size_t part,
               const std::vector<Spot>& spots, double value,
               const Interval& band, double mesh_error) {
  Answer answer{value, if_any(band), mesh_error};
  if (spots.empty()) return answer;
  answer.place = at_point(kept, spots.front().at, part).place;
  answer.place->where = spots.front().where;
  answer.place->beside = 0;
  return answer;
}

/// Index of the part with the least or largest figure; the copy where one is
/// asked for.
template <class Better>
std::size_t chosen(const Result& result, const Reading& r, Better better) {
  if (r.copy) return *r.copy;
  std::size_t best = 0;
  for (std::size_t k = 1; k < result.parts.size(); ++k)
    if (better(result.parts[k], result.parts[best])) best = k;
  return best;
}

Answer thinnest(const KeptResult& kept, const Reading& r) {
  const std::size_t k =
      chosen(kept.result, r, [](const PartResult& a, const PartResult& b) {
        return a.thickness.value.min < b.thickness.value.min;
      });
  const PartResult& p = kept.result.parts[k];
  // The target's own figure is over what counts, of all copies.
  const auto& target = kept.result.target;
  if (target && (!r.copy || kept.result.parts.size() == 1))
    return at_spot(kept, k, p.thin_spots, target->least, target->least_band,
                   target->least_mesh_error);
  return at_spot(kept, k, p.thin_spots, p.thickness.value.min,
                 p.thickness.min_band, p.thickness.mesh_error.min);
}

Answer heaviest(const KeptResult& kept, const Reading& r) {
  const std::size_t k =
      chosen(kept.result, r, [](const PartResult& a, const PartResult& b) {
        return a.thickness.value.max > b.thickness.value.max;
      });
  const PartResult& p = kept.result.parts[k];
  return at_spot(kept, k, p.heavy_spots, p.thickness.value.max,
                 p.thickness.max_band, p.thickness.mesh_error.max);
}

/// Mean over one copy or, by their areas, over all.
Answer mean(const Result& result, const Reading& r) {
  Answer answer;
  Interval band;
  double area = 0;
  for (std::size_t k = 0; k < result.parts.size(); ++k) {
    if (r.copy && *r.copy != k) continue;
    const PartResult& p = result.parts[k];
    area += p.area;
    answer.value += p.area * p.thickness.value.mean;
    band.low += p.area * p.thickness.mean_band.low;
    band.high += p.area * p.thickness.mean_band.high;
    answer.mesh_error += p.area * p.thickness.mesh_error.mean;
  }
  if (!(area > 0))
    throw InputError("", "no surface is plated there", kLeaveOut);
  answer.value /= area;
  answer.mesh_error /= area;
  answer.band = if_any({band.low / area, band.high / area});
  return answer;
}

Answer probe(const KeptResult& kept, const Reading& r) {
  std::vector<std::string> names;
  for (const ProbeResult& p : kept.result.probes) {
    if (p.name != r.at) {
      names.push_back("\"" + p.name + "\"");
      continue;
    }
    Answer answer = at_point(kept, p.at, {});
    answer.value = p.thickness;
    answer.mesh_error = p.thickness_mesh_error;
    answer.place->where = p.name;
    return answer;
  }
  throw InputError("", fmt::format("the result has no probe \"{}\"", r.at),
                   names.empty()
                       ? "give the case a [[probe]], or a point"
                       : fmt::format("it has {}", fmt::join(names, ", ")));
}

Answer thickness(const KeptResult& kept, const Reading& r) {
  switch (r.where) {
    case Where::point: return at_point(kept, r.point, r.copy);
    case Where::probe: return probe(kept, r);
    case Where::thinnest: return thinnest(kept, r);
    case Where::heaviest: return heaviest(kept, r);
    case Where::mean:
    case Where::along: break;
  }
  return mean(kept.result, r);
}

/// The mass's band goes as that of the mean thickness, as their areas do not
/// move.
Answer mass(const Result& result, const Reading& r) {
  const Answer thick = mean(result, r);
  Answer answer;
  for (std::size_t k = 0; k < result.parts.size(); ++k)
    if (!r.copy || *r.copy == k) answer.value += result.parts[k].mass;
  if (!(thick.value > 0)) return answer;
  const double share = answer.value / thick.value;
  answer.mesh_error = share * thick.mesh_error;
  if (thick.band)
    answer.band = {{share * thick.band->low, share * thick.band->high}};
  return answer;
}

const CellResult& cell_of(const Result& result, const Reading& r) {
  return r.step ? result.steps[*r.step].cell : result.cell;
}

Answer voltage(const Result& result, const Reading& r) {
  const CellResult& cell = cell_of(result, r);
  if (r.at_current && std::abs(*r.at_current - cell.current) >
                          kSameCurrent * std::abs(cell.current))
    throw InputError("",
                     fmt::format("was read at {:.4g} A, the result is of "
                                 "{:.4g} A",
                                 *r.at_current, cell.current),
                     kLeaveOut);
  return {cell.voltage, if_any(cell.voltage_band), cell.voltage_mesh_error};
}

Answer current(const Result& result, const Reading& r) {
  const CellResult& cell = cell_of(result, r);
  return {cell.current, if_any(cell.current_band)};
}

void check(const Result& result, const Reading& r) {
  if (r.in != Reading::In::tank)
    throw InputError("", "is of a test cell, the result of a tank", kLeaveOut);
  if (!r.with.empty())
    throw InputError(
        "", fmt::format("is of another set-up ({})", fmt::join(r.with, ", ")),
        kLeaveOut);
  if (r.copy && *r.copy >= result.parts.size())
    throw InputError("",
                     fmt::format("is of copy {}, the result has {}",
                                 *r.copy + 1, result.parts.size()),
                     "name one that is there");
  if (!r.step) return;
  if (*r.step >= result.steps.size())
    throw InputError("",
                     fmt::format("is of step {}, the result has {}",
                                 *r.step + 1, result.steps.size()),
                     "name one that is there");
  const bool of_cell = r.of == Of::voltage || r.of == Of::current;
  if (!of_cell && *r.step + 1 < result.steps.size())
    throw InputError("",
                     "is of a step before the last, after which the "
                     "result keeps no coating",
                     kLeaveOut);
}

Answer answer_to(const KeptResult& kept, const Reading& r) {
  check(kept.result, r);
  switch (r.of) {
    case Of::voltage: return voltage(kept.result, r);
    case Of::current: return current(kept.result, r);
    case Of::mass: return mass(kept.result, r);
    case Of::thickness:
    case Of::ratio: break;
  }
  return thickness(kept, r);
}

/// How far the forecast may be off at the side where the reading lies: bands
/// are rarely as wide to both sides. One of a figure holds the mesh's error.
double towards_reading(const ReadAgainst& a) {
  if (!a.band) return a.mesh_error;
  return std::max(
      0.0, a.by() > 0 ? a.forecast - a.band->low : a.band->high - a.forecast);
}

/// That k or more of n come up where each does so once in twenty.
double tail_of_binomial(std::size_t n, std::size_t k) {
  constexpr double p = 0.05;
  double below = 0, term = std::pow(1 - p, static_cast<double>(n));
  for (std::size_t j = 0; j < k; ++j) {
    below += term;
    term *=
        p / (1 - p) * static_cast<double>(n - j) / static_cast<double>(j + 1);
  }
  return std::max(0.0, 1 - below);
}

}  // namespace

std::vector<ReadAgainst> read_against(const KeptResult& kept,
                                      const std::vector<Reading>& readings,
                                      const std::string& file) {
  std::vector<ReadAgainst> all;
  std::vector<Problem> problems;
  for (const Reading& r : readings) {
    try {
      const Answer answer = answer_to(kept, r);
      ReadAgainst a{r, answer.value, answer.band, answer.mesh_error};
      a.place = answer.place;
      a.deviation = std::hypot(r.plus_minus, towards_reading(a)) / kOf95;
      a.z = a.by() / a.deviation;
      all.push_back(std::move(a));
    } catch (const InputError& error) {
      Problem p = error.problems().front();
      p.place = fmt::format("{}:{}", file, r.line);
      problems.push_back(std::move(p));
    }
  }
  if (!problems.empty()) throw InputError(std::move(problems));
  return all;
}

double Agreement::chance() const {
  if (count == 1) return chance_of_worst;
  return std::min(1.0, 2 * std::min(chance_of_count, chance_of_worst));
}

Agreement agreement(const std::vector<ReadAgainst>& all) {
  Agreement out{.count = all.size()};
  for (std::size_t k = 0; k < all.size(); ++k) {
    out.beyond += std::abs(all[k].z) > kOf95;
    out.mean += all[k].z / static_cast<double>(all.size());
    if (std::abs(all[k].z) > std::abs(all[out.worst].z)) out.worst = k;
  }
  out.chance_of_count = tail_of_binomial(out.count, out.beyond);
  const double tails = 2 * normal_share(-std::abs(all[out.worst].z));
  out.chance_of_worst = std::min(1.0, static_cast<double>(out.count) * tails);
  return out;
}

}  // namespace thinspot::solver
