#pragma once

#include <Eigen/Core>

#include <string>
#include <vector>

namespace thinspot::mesh {

using Point = Eigen::Vector2d;

/// A straight or circular piece of an outline, walked from `from` to `to` with
/// the solid on its left.
struct Curve {
  Point from;           ///< [m]
  Point to;             ///< [m]
  double bulge = 0;     ///< tan(sweep/4): 0 straight, 1 half a circle
                        ///< counter-clockwise, negative clockwise
  std::string face;     ///< name of the face of the solid that it belongs to
  bool masked = false;  ///< under stop-off lacquer: carries no current
};

/// A closed chain of curves. Outer loops run counter-clockwise, holes
/// clockwise, so that the solid is always on the left.
using Loop = std::vector<Curve>;

struct Outline {
  std::vector<Loop> loops;
};

struct Box {
  Point low, high;  ///< [m]
  Point centre() const { return 0.5 * (low + high); }
  Point size() const { return high - low; }
};

/// Foot of the perpendicular from a point to a curve.
struct Foot {
  double t = 0;         ///< fraction of the curve's length, 0..1
  double distance = 0;  ///< [m]
};

/// The curve that a loop of an outline and its place in it name.
const Curve& curve_of(const Outline& o, int loop, int curve);

double length(const Curve& c);
bool is_arc(const Curve& c);
double radius(const Curve& c);  ///< [m]; infinity for a straight curve
Point centre(const Curve& c);   ///< @pre is_arc(c)

/// Point at the fraction t of the curve's length, 0 <= t <= 1.
Point point_at(const Curve& c, double t);

/// Unit normal at t pointing out of the solid, that is to the right of travel.
Point outward_normal(const Curve& c, double t);

Foot nearest(const Curve& c, const Point& p);

/// A place on an outline, by the point that it is nearest to.
struct OutlineFoot {
  std::size_t loop = 0, curve = 0;
  double t = 0;         ///< fraction of that curve's length
  double distance = 0;  ///< [m]; infinity where there is no curve
  Point at = Point::Zero();
};
OutlineFoot nearest(const Outline& o, const Point& p);

/// True where every curve, mirrored left and right at x = 0, lies on the
/// outline again, within `near` [m].
bool is_mirrored(const Outline& o, double near);

/// Distance from a point to a box, 0 inside [m].
double distance(const Box& box, const Point& p);

/// Between two boxes, 0 where they meet [m].
double distance(const Box& a, const Box& b);

/// The piece of a curve between two fractions of its length, t0 < t1.
Curve piece_of(const Curve& c, double t0, double t1);

double perimeter(const Outline& o);  ///< all loops together [m]
double area(const Outline& o);       ///< enclosed, holes taken off [m2]
Box bounding_box(const Outline& o);

/// True where p lies inside the solid (boundary undefined).
bool contains(const Outline& o, const Point& p);

/// Smallest distance between two outlines, sampled on arcs [m].
double distance(const Outline& a, const Outline& b);

/// Left and right of the upright line at x [m] change places; loops are walked
/// backwards, so that the solid stays on the left.
Outline mirrored(const Outline& o, double x);

/// Turns by `turn` [rad] about the origin, then shifts by `shift` [m].
Outline moved(const Outline& o, double turn, const Point& shift);

}  // namespace thinspot::mesh
