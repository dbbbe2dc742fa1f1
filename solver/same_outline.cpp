#include "solver/same_outline.hpp"

#include "mesh/errors.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <optional>
#include <set>

namespace thinspot::solver {

namespace {

using mesh::Point;

/// Tables have six digits; half a unit of the last one, twice.
constexpr double kDigits = 1e-5;
constexpr std::size_t kSamples = 400;
/// Ways to lie that are tried where no face tells how.
constexpr int kTurns = 240;
constexpr std::size_t kMostStarts = 24;

/// Of the surface between two neighbouring points: the angle that it turns by,
/// the straight way, and how far it may leave that at most, which is where it
/// has one sharp corner in the middle.
struct Gap {
  double turn = 0, straight = 0, bend = 0;
};

Gap gap_between(const SurfacePoint& a, const SurfacePoint& b) {
  Gap gap;
  gap.straight = (b.at - a.at).norm();
  gap.turn = std::acos(std::clamp(a.normal.dot(b.normal), -1.0, 1.0));
  // A half circle or a blade: as far as half of the way.
  const double slope = std::tan(std::min(gap.turn / 2, std::numbers::pi / 4));
  gap.bend = gap.straight / 2 * slope;
  return gap;
}

double extent(const PartResult& part) {
  double most = 0;
  for (const SurfacePoint& p : part.surface)
    most = std::max(most, p.at.cwiseAbs().maxCoeff());
  return most;
}

std::complex<double> as_complex(const Point& p) { return {p.x(), p.y()}; }

/// Fits one loop onto another at one shift.
class Fit {
 public:
  Fit(const PartResult& a, const PartResult& b, LoopMatch match)
      : a_(a), b_(b), match_(match) {
    const std::size_t n = match.a.last - match.a.first;
    const std::size_t every = std::max<std::size_t>(1, n / kSamples);
    for (std::size_t k = match.a.first; k < match.a.last; k += every)
      samples_.push_back(k);
    rounding_ = kDigits * std::max(extent(a), extent(b));
  }

  struct Outcome {
    double square = 0;      ///< of what is off, mean [m2]
    double off = 0;         ///< the largest [m]
    bool same = true;       ///< nothing is off by more than bends allow
    std::size_t alike = 0;  ///< samples whose face has the same name
    double worst_arc = 0;   ///< where most is off [m]
  };

  Outcome at(double shift) const {
    match_.shift = shift;
    std::vector<std::complex<double>> z, w;
    std::vector<double> allowed;
    Outcome out;
    double squares = 0;
    std::complex<double> mean_z, mean_w;
    for (const std::size_t k : samples_) {
      const SurfacePoint& p = a_.surface[k];
      const Between place = place_on(b_, match_, p.arc);
      const SurfacePoint &from = b_.surface[place.from],
                         &to = b_.surface[place.to];
      z.push_back(as_complex(p.at));
      w.push_back(as_complex(from.at + place.share * (to.at - from.at)));
      const double bend = gap_between(from, to).bend + rounding_;
      allowed.push_back(bend);
      squares += bend * bend;
      mean_z += z.back();
      mean_w += w.back();
      const SurfacePoint& near = place.share < 0.5 ? from : to;
      out.alike += a_.faces[static_cast<std::size_t>(p.face)].name ==
                   b_.faces[static_cast<std::size_t>(near.face)].name;
    }
    const auto n = static_cast<double>(z.size());
    mean_z /= n;
    mean_w /= n;
    std::complex<double> turn;
    for (std::size_t k = 0; k < z.size(); ++k)
      turn += std::conj(z[k] - mean_z) * (w[k] - mean_w);
    turn = std::abs(turn) > 0 ? turn / std::abs(turn) : 1.0;
    // The bends move the whole fit as well.
    const double whole = std::sqrt(squares / n);
    for (std::size_t k = 0; k < z.size(); ++k) {
      const double off = std::abs(turn * (z[k] - mean_z) - (w[k] - mean_w));
      out.square += off * off / n;
      out.same = out.same && off <= allowed[k] + whole;
      if (off <= out.off) continue;
      out.off = off;
      out.worst_arc = a_.surface[samples_[k]].arc;
    }
    return out;
  }

  /// The best shift about one, by golden sections.
  double refined(double shift, double reach) const {
    constexpr double golden = 0.6180339887498949;
    double low = shift - reach, high = shift + reach;
    double x1 = high - golden * (high - low), x2 = low + golden * (high - low);
    double f1 = at(x1).square, f2 = at(x2).square;
    while (high - low > 0.1 * rounding_) {
      if (f1 < f2) {
        high = x2;
        x2 = x1;
        f2 = f1;
        x1 = high - golden * (high - low);
        f1 = at(x1).square;
      } else {
        low = x1;
        x1 = x2;
        f1 = f2;
        x2 = low + golden * (high - low);
        f2 = at(x2).square;
      }
    }
    return 0.5 * (low + high);
  }

  std::size_t samples() const { return samples_.size(); }

 private:
  const PartResult& a_;
  const PartResult& b_;
  mutable LoopMatch match_;
  std::vector<std::size_t> samples_;
  double rounding_ = 0;
};

/// Arc at which each run of one face begins, with that face's name.
std::vector<std::pair<std::string, double>> face_starts(const PartResult& part,
                                                        const KeptLoop& loop) {
  std::vector<std::pair<std::string, double>> starts;
  for (std::size_t k = loop.first; k < loop.last; ++k) {
    const std::size_t before = k > loop.first ? k - 1 : loop.last - 1;
    const SurfacePoint &p = part.surface[k], &q = part.surface[before];
    if (p.face == q.face || starts.size() >= kMostStarts) continue;
    const double way =
        k > loop.first ? p.arc - q.arc : p.arc - q.arc + loop.length();
    starts.emplace_back(part.faces[static_cast<std::size_t>(p.face)].name,
                        p.arc - way / 2);
  }
  return starts;
}

double widest_gap(const PartResult& part, const KeptLoop& loop) {
  double widest = part.surface[loop.first].arc -
                  part.surface[loop.last - 1].arc + loop.length();
  for (std::size_t k = loop.first + 1; k < loop.last; ++k)
    widest = std::max(widest, part.surface[k].arc - part.surface[k - 1].arc);
  return widest;
}

/// Into -length/2 .. length/2.
double nearest_turn(double shift, double length) {
  return shift - length * std::round(shift / length);
}

struct Candidate {
  double shift = 0;
  Fit::Outcome outcome;
};

/// The better way to lie: more faces agree, then less of a shift.
bool better(const Candidate& c, const std::optional<Candidate>& best) {
  if (!best) return true;
  if (c.outcome.alike != best->outcome.alike)
    return c.outcome.alike > best->outcome.alike;
  return std::abs(c.shift) < std::abs(best->shift);
}

double mm(double metres) { return 1e3 * metres; }

std::string lengths_differ(const PartResult& a, const PartResult& b,
                           double in_a, double in_b) {
  // A face that is not there says more than a length.
  const auto names = [](const PartResult& part) {
    std::set<std::string> all;
    for (const SurfacePoint& p : part.surface)
      all.insert(part.faces[static_cast<std::size_t>(p.face)].name);
    return all;
  };
  const std::set<std::string> mine = names(a), theirs = names(b);
  std::string text = fmt::format("it is {:.2f} mm all round, there {:.2f} mm",
                                 mm(in_b), mm(in_a));
  for (const std::string& face : theirs)
    if (!mine.contains(face))
      return text + fmt::format(", and \"{}\" is no face there", face);
  return text;
}

[[noreturn]] void refuse(const std::string& name, const PartResult& b,
                         const std::string& what) {
  throw InputError(name,
                   fmt::format("its {} has not the same shape as in the first "
                               "result: {}",
                               b.name, what),
                   "compare results of one part; tank, anodes, current and "
                   "time may differ");
}

LoopMatch matched(const PartResult& a, const PartResult& b, LoopMatch match,
                  const std::string& name) {
  const double slack = kDigits * std::max(match.a.most, match.b.most);
  if (match.a.least > match.b.most + slack ||
      match.b.least > match.a.most + slack)
    refuse(name, b, lengths_differ(a, b, match.a.length(), match.b.length()));
  // What the one leaves open of its length the other may know.
  const double least = std::max(match.a.least, match.b.least);
  const double most = std::max(least, std::min(match.a.most, match.b.most));
  for (KeptLoop* loop : {&match.a, &match.b}) {
    loop->least = least;
    loop->most = most;
  }
  const Fit fit(a, b, match);
  const double length = match.b.length();
  std::optional<Candidate> best;
  Candidate nearest{0, fit.at(0)};
  const auto look = [&](double shift) {
    const Candidate c{nearest_turn(shift, length), fit.at(shift)};
    if (c.outcome.same && better(c, best)) best = c;
    if (c.outcome.square < nearest.outcome.square) nearest = c;
  };
  look(0);
  // Alike in place and in every name: no other way to lie can be better.
  if (!best || best->outcome.alike < fit.samples()) {
    const double reach = widest_gap(a, match.a) + widest_gap(b, match.b);
    for (const auto& [face, start] : face_starts(a, match.a))
      for (const auto& [other, there] : face_starts(b, match.b))
        if (face == other) look(fit.refined(there - start, reach));
    if (!best)
      for (int k = 0; k < kTurns; ++k) {
        const double step = length / kTurns;
        if (fit.at(k * step).off < 4 * step) look(fit.refined(k * step, step));
      }
  }
  if (!best)
    refuse(name, b,
           fmt::format("laid on each other they are {:.2g} mm apart, {:.2f} mm "
                       "along the outline",
                       mm(nearest.outcome.off), mm(nearest.outcome.worst_arc)));
  match.shift = best->shift;
  return match;
}

}  // namespace

std::vector<KeptLoop> kept_loops(const PartResult& part) {
  std::vector<KeptLoop> loops;
  const auto& s = part.surface;
  for (std::size_t first = 0, k = 1; k <= s.size(); ++k) {
    if (k < s.size() && s[k].loop == s[first].loop) continue;
    const Gap last = gap_between(s[k - 1], s[first]);
    const double known = s[k - 1].arc - s[first].arc;
    // Along the axis of an axisymmetric section there is nothing to bend.
    const double near = 1e-6 * extent(part);
    const bool axis =
        std::abs(s[k - 1].at.x()) <= near && std::abs(s[first].at.x()) <= near;
    const double half =
        axis ? 0 : std::min(last.turn / 2, std::numbers::pi / 4);
    loops.push_back({.first = first,
                     .last = k,
                     .least = known + last.straight,
                     .most = known + last.straight / std::cos(half)});
    first = k;
  }
  return loops;
}

std::vector<LoopMatch> match_outlines(const PartResult& a, const PartResult& b,
                                      const std::string& name) {
  const std::vector<KeptLoop> in_a = kept_loops(a), in_b = kept_loops(b);
  if (in_a.size() != in_b.size())
    refuse(name, b,
           fmt::format("its surface has {} outlines, there {}", in_b.size(),
                       in_a.size()));
  std::vector<LoopMatch> matches;
  for (std::size_t k = 0; k < in_a.size(); ++k)
    matches.push_back(matched(a, b, {in_a[k], in_b[k]}, name));
  return matches;
}

Between place_on(const PartResult& b, const LoopMatch& match, double arc) {
  const auto& s = b.surface;
  const std::size_t first = match.b.first, last = match.b.last;
  const double length = match.b.length();
  const double start = s[first].arc;
  double there = arc + match.shift;
  there -= length * std::floor((there - start) / length);
  const auto begin = s.begin() + static_cast<std::ptrdiff_t>(first);
  const auto end = s.begin() + static_cast<std::ptrdiff_t>(last);
  const auto next = std::upper_bound(
      begin, end, there,
      [](double value, const SurfacePoint& p) { return value < p.arc; });
  Between place;
  place.to = next == end ? first : static_cast<std::size_t>(next - s.begin());
  place.from =
      next == begin ? last - 1 : static_cast<std::size_t>(next - s.begin()) - 1;
  const double from = s[place.from].arc;
  const double to = next == end ? s[first].arc + length : s[place.to].arc;
  place.share =
      to > from ? std::clamp((there - from) / (to - from), 0.0, 1.0) : 0;
  return place;
}

}  // namespace thinspot::solver
