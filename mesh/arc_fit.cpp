#include "mesh/arc_fit.hpp"

#include "mesh/errors.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace thinspot::mesh {

namespace {

constexpr double kOfLength = 1e-4, kOfExtent = 2e-5;
/// Deviations below this share of the extent are none.
constexpr double kNothing = 1e-7;
/// A pair of arcs may not turn further: beyond, it may take a way of its own.
constexpr double kLargestTurn = 95 * std::numbers::pi / 180;
/// Directions that differ by more are a corner of the curve.
constexpr double kCorner = 1e-4;
/// Arcs of a smaller bulge are straight; the kinks that this leaves are too
/// small for the mesher to take for corners.
constexpr double kStraight = 1e-7;
constexpr int kDeepest = 40;

double angle_between(const Point& a, const Point& b) {
  return std::atan2(a.x() * b.y() - a.y() * b.x(), a.dot(b));
}

Curve arc(const Point& from, const Point& to, double half_sweep) {
  const double bulge = std::tan(half_sweep / 2);
  return {from, to, std::abs(bulge) < kStraight ? 0 : bulge, ""};
}

/// Two arcs that leave p along u, arrive at q along v and meet halfway with a
/// common tangent, their ends as far from the corners of the control polygon.
std::vector<Curve> biarc(const Point& p, const Point& u, const Point& q,
                         const Point& v) {
  const Point chord = q - p;
  const double along = chord.dot(u + v), square = chord.squaredNorm();
  const double root = std::sqrt(along * along + 2 * (1 - u.dot(v)) * square);
  const double d = square / (along + root);
  const Point joint = 0.5 * (p + d * u + q - d * v);
  return {arc(p, joint, angle_between(u, joint - p)),
          arc(joint, q, angle_between(q - joint, v))};
}

struct Sample {
  double t;
  Point at, direction;
};

class ArcFit {
 public:
  ArcFit(const ParametricCurve& curve, int most);
  std::vector<Curve> pieces();

 private:
  Point at(double t) const;
  Point direction(double t, double step) const;
  bool corner_at(std::size_t knot) const;
  std::vector<Sample> samples(const Sample& a, const Sample& b) const;
  void fit(const Sample& a, const Sample& b, int depth);
  void put(const std::vector<Curve>& pieces);

  const ParametricCurve& curve_;
  int most_;
  double extent_ = 0;
  std::vector<Curve> result_;
};

double length_of(const std::vector<Sample>& samples) {
  double sum = 0;
  for (std::size_t k = 1; k < samples.size(); ++k)
    sum += (samples[k].at - samples[k - 1].at).norm();
  return sum;
}

double turn_of(const std::vector<Sample>& samples) {
  double sum = 0;
  for (std::size_t k = 1; k < samples.size(); ++k)
    sum +=
        std::abs(angle_between(samples[k - 1].direction, samples[k].direction));
  return sum;
}

double deviation(const std::vector<Sample>& samples,
                 const std::vector<Curve>& pieces) {
  double largest = 0;
  for (const Sample& s : samples) {
    double least = nearest(pieces.front(), s.at).distance;
    for (const Curve& c : pieces)
      least = std::min(least, nearest(c, s.at).distance);
    largest = std::max(largest, least);
  }
  return largest;
}

/// Where half the length is reached.
double halfway(const std::vector<Sample>& samples, double length) {
  double sum = 0;
  for (std::size_t k = 1; k < samples.size(); ++k) {
    const double step = (samples[k].at - samples[k - 1].at).norm();
    if (sum + step >= 0.5 * length && step > 0)
      return std::lerp(samples[k - 1].t, samples[k].t,
                       (0.5 * length - sum) / step);
    sum += step;
  }
  return samples[samples.size() / 2].t;
}

ArcFit::ArcFit(const ParametricCurve& curve, int most)
    : curve_(curve), most_(most) {
  Box box{at(curve.knots.front()), at(curve.knots.front())};
  for (std::size_t k = 1; k < curve.knots.size(); ++k)
    for (double share : {0.25, 0.5, 0.75, 1.0}) {
      const Point p = at(std::lerp(curve.knots[k - 1], curve.knots[k], share));
      box.low = box.low.cwiseMin(p);
      box.high = box.high.cwiseMax(p);
    }
  extent_ = box.size().maxCoeff();
}

Point ArcFit::at(double t) const {
  const Point p = curve_.at(t);
  if (!p.allFinite())
    throw InputError("file", "holds a curve that is not finite",
                     "sound curves, or straight lines and arcs");
  return p;
}

/// Unit tangent at t, or just beside it where the curve stands still there.
Point ArcFit::direction(double t, double step) const {
  const Point v = curve_.velocity(t);
  const double whole = curve_.knots.back() - curve_.knots.front();
  if (v.allFinite() && v.norm() * whole > 1e-9 * extent_) return v.normalized();
  const Point moved = (at(t + step) - at(t)) * (step < 0 ? -1 : 1);
  return moved.norm() > 0 ? moved.normalized() : Point(1, 0);
}

bool ArcFit::corner_at(std::size_t knot) const {
  const double t = curve_.knots[knot];
  const double before = 1e-7 * (curve_.knots[knot - 1] - t);
  const double after = 1e-7 * (curve_.knots[knot + 1] - t);
  return std::abs(angle_between(direction(t + before, before),
                                direction(t + after, after))) > kCorner;
}

/// The ends, and enough between them to see every change of formula.
std::vector<Sample> ArcFit::samples(const Sample& a, const Sample& b) const {
  std::vector<double> breaks{a.t};
  // A knot that is an end but for rounding makes no stretch of its own.
  const double near = 1e-9 * (b.t - a.t);
  for (auto knot = std::upper_bound(curve_.knots.begin(), curve_.knots.end(),
                                    a.t + near);
       knot != curve_.knots.end() && *knot < b.t - near; ++knot)
    breaks.push_back(*knot);
  breaks.push_back(b.t);
  const int each = breaks.size() > 4 ? 4 : 12;
  std::vector<Sample> result{a};
  for (std::size_t k = 1; k < breaks.size(); ++k)
    for (int i = 1; i <= each; ++i) {
      if (k + 1 == breaks.size() && i == each) break;
      const double width = breaks[k] - breaks[k - 1];
      const double t = breaks[k - 1] + width * i / each;
      result.push_back({t, at(t), direction(t, 1e-5 * width)});
    }
  result.push_back(b);
  return result;
}

void ArcFit::put(const std::vector<Curve>& pieces) {
  if (static_cast<int>(result_.size() + pieces.size()) > most_)
    throw InputError(
        "file", fmt::format("holds curves that need more than {} arcs", most_),
        "a simpler outline");
  result_.insert(result_.end(), pieces.begin(), pieces.end());
}

void ArcFit::fit(const Sample& a, const Sample& b, int depth) {
  const std::vector<Sample> between = samples(a, b);
  const double length = length_of(between);
  if (length <= kNothing * extent_ || depth == kDeepest) {
    if ((b.at - a.at).norm() > 0) put({{a.at, b.at, 0, ""}});
    return;
  }
  if ((b.at - a.at).norm() > 0.1 * length && turn_of(between) <= kLargestTurn) {
    const Point chord = b.at - a.at;
    const double leaving = angle_between(a.direction, chord);
    const double arriving = angle_between(chord, b.direction);
    const std::vector<Curve> one{arc(a.at, b.at, 0.5 * (leaving + arriving))};
    if (std::abs(leaving - arriving) < kStraight &&
        deviation(between, one) <= 1e-9 * extent_)
      return put(one);
    const std::vector<Curve> two = biarc(a.at, a.direction, b.at, b.direction);
    const double allowed =
        std::clamp(kOfLength * length, kNothing * extent_, kOfExtent * extent_);
    const double fitted = mesh::length(two[0]) + mesh::length(two[1]);
    if (std::abs(fitted - length) < 0.02 * length &&
        deviation(between, two) <= allowed)
      return put(two);
  }
  const double t = halfway(between, length);
  const Sample middle{t, at(t), direction(t, 1e-5 * (b.t - a.t))};
  fit(a, middle, depth + 1);
  fit(middle, b, depth + 1);
}

std::vector<Curve> ArcFit::pieces() {
  const std::vector<double>& knots = curve_.knots;
  std::size_t start = 0;
  for (std::size_t k = 1; k < knots.size(); ++k) {
    const bool last = k + 1 == knots.size();
    if (!last && !corner_at(k)) continue;
    const double t0 = knots[start], t1 = knots[k];
    // At a corner the direction of this side of it.
    const double after = 1e-7 * (knots[start + 1] - t0);
    const double before = 1e-7 * (knots[k - 1] - t1);
    fit({t0, at(t0), direction(start == 0 ? t0 : t0 + after, 100 * after)},
        {t1, at(t1), direction(last ? t1 : t1 + before, 100 * before)}, 0);
    start = k;
  }
  return result_;
}

}  // namespace

std::vector<Curve> fit_arcs(const ParametricCurve& curve, int most) {
  return ArcFit(curve, most).pieces();
}

}  // namespace thinspot::mesh
