#include "mesh/outline_spline.hpp"

#include "mesh/errors.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>

namespace thinspot::mesh {

namespace {

constexpr int kHighestDegree = 25;
constexpr std::size_t kMostPoints = 5000;

[[noreturn]] void refuse(const std::string& wrong) {
  throw InputError("file", "holds a spline " + wrong,
                   "sound splines, or straight lines and arcs");
}

void check(const Spline& s) {
  const auto degree = static_cast<std::size_t>(s.degree);
  if (s.degree < 1 || s.degree > kHighestDegree)
    refuse(fmt::format("of degree {}; 1 to {} are known", s.degree,
                       kHighestDegree));
  if (s.points.size() <= degree || s.points.size() > kMostPoints)
    refuse(
        fmt::format("of degree {} with {} control points; {} to {} are "
                    "possible",
                    s.degree, s.points.size(), degree + 1, kMostPoints));
  if (s.knots.size() != s.points.size() + degree + 1)
    refuse(
        fmt::format("of degree {} with {} control points and {} knots; it "
                    "needs {}",
                    s.degree, s.points.size(), s.knots.size(),
                    s.points.size() + degree + 1));
  if (!std::is_sorted(s.knots.begin(), s.knots.end()))
    refuse("whose knots do not ascend");
  const double first = s.knots[degree];
  const double last = s.knots[s.points.size()];
  if (!(first < last)) refuse("whose knots are all the same");
  for (std::size_t k = 0; k + degree < s.knots.size(); ++k)
    if (s.knots[k] > first && s.knots[k + degree] < last &&
        s.knots[k] == s.knots[k + degree])
      refuse("with a gap in it");
  if (!s.weights.empty() && s.weights.size() != s.points.size())
    refuse(fmt::format("with {} control points and {} weights", s.points.size(),
                       s.weights.size()));
  for (double w : s.weights)
    if (!(w > 0)) refuse(fmt::format("with a weight of {:.4g}", w));
}

struct Jet {
  Point at, velocity;
};

/// De Boor's algorithm on (w x, w y, w); its last step also gives the
/// derivative. (Piegl and Tiller, The NURBS Book, 2nd ed., 4.2, 4.3.)
Jet evaluate(const Spline& s, double t) {
  const auto p = static_cast<std::size_t>(s.degree);
  const auto begin = s.knots.begin() + s.degree;
  const auto end = s.knots.begin() + static_cast<long>(s.points.size());
  // The span that holds t; at the end the last one that is not empty.
  auto above = std::upper_bound(begin, end, t);
  if (above == end) above = std::lower_bound(begin, end, *end);
  const auto span = static_cast<std::size_t>(above - s.knots.begin()) - 1;
  std::vector<Eigen::Vector3d> d;
  for (std::size_t k = span - p; k <= span; ++k) {
    const double w = s.weights.empty() ? 1 : s.weights[k];
    d.emplace_back(w * s.points[k].x(), w * s.points[k].y(), w);
  }
  Eigen::Vector3d slope = Eigen::Vector3d::Zero();
  for (std::size_t level = 1; level <= p; ++level)
    for (std::size_t j = p; j >= level; --j) {
      const double low = s.knots[span - p + j];
      const double high = s.knots[span + 1 + j - level];
      if (level == p)
        slope = static_cast<double>(p) * (d[j] - d[j - 1]) / (high - low);
      const double share = (t - low) / (high - low);
      d[j] = (1 - share) * d[j - 1] + share * d[j];
    }
  const Point at = d[p].head<2>() / d[p].z();
  return {at, (slope.head<2>() - slope.z() * at) / d[p].z()};
}

}  // namespace

ParametricCurve spline_curve(const Spline& spline) {
  check(spline);
  const auto s = std::make_shared<const Spline>(spline);
  ParametricCurve curve;
  curve.at = [s](double t) { return evaluate(*s, t).at; };
  curve.velocity = [s](double t) { return evaluate(*s, t).velocity; };
  std::unique_copy(s->knots.begin() + s->degree,
                   s->knots.begin() + static_cast<long>(s->points.size()) + 1,
                   std::back_inserter(curve.knots));
  return curve;
}

ParametricCurve ellipse_curve(const Point& centre, const Point& major,
                              const Point& minor, double from, double to) {
  ParametricCurve curve;
  curve.at = [=](double t) -> Point {
    return centre + std::cos(t) * major + std::sin(t) * minor;
  };
  curve.velocity = [=](double t) -> Point {
    return std::cos(t) * minor - std::sin(t) * major;
  };
  curve.knots = {from, to};
  return curve;
}

}  // namespace thinspot::mesh
