#include "viz/face_places.hpp"

#include <algorithm>

namespace thinspot::viz {

using solver::SurfacePoint;

std::vector<const SurfacePoint*> places_on_face(
    const solver::PartResult& part, std::size_t face, const Frame& frame,
    const std::vector<double>& shares, bool wetted) {
  std::vector<const SurfacePoint*> points;
  for (const SurfacePoint& s : part.surface)
    if (static_cast<std::size_t>(s.face) == face && (s.wetted || !wetted) &&
        inside(frame.model, s.at))
      points.push_back(&s);
  if (points.empty()) return {};
  // A face that holds the loop's start has its ends in the middle of the list.
  Point middle = Point::Zero();
  for (const SurfacePoint* p : points)
    middle += p->at / static_cast<double>(points.size());
  std::vector<const SurfacePoint*> places{*std::min_element(
      points.begin(), points.end(), [&](const auto* a, const auto* b) {
        return (a->at - middle).squaredNorm() < (b->at - middle).squaredNorm();
      })};
  for (const double share : shares)
    places.push_back(points[static_cast<std::size_t>(
        share * static_cast<double>(points.size() - 1))]);
  return places;
}

}  // namespace thinspot::viz
