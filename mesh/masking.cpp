#include "mesh/masking.hpp"

#include "mesh/errors.hpp"

namespace thinspot::mesh {

namespace {

Outline masked_faces(Outline outline, const Mask& mask) {
  for (const std::string& face : mask.faces) {
    bool found = false;
    for (Loop& loop : outline.loops)
      for (Curve& c : loop)
        if (c.face == face) c.masked = found = true;
    if (!found)
      throw InputError("faces", "there is no face \"" + face + "\" to mask",
                       "a face of " + mask.on + " as it is drawn here");
  }
  return outline;
}

/// Cuts a loop at a place; the curve that begins there.
std::size_t cut_at(Loop& loop, const OutlineFoot& place, double tolerance) {
  const Curve whole = loop[place.curve];
  const double size = length(whole);
  if (place.t * size < tolerance) return place.curve;
  if ((1 - place.t) * size < tolerance) return (place.curve + 1) % loop.size();
  loop[place.curve] = piece_of(whole, 0, place.t);
  loop.insert(loop.begin() + static_cast<std::ptrdiff_t>(place.curve) + 1,
              piece_of(whole, place.t, 1));
  return place.curve + 1;
}

Outline masked_between(Outline outline, const Point& from, const Point& to,
                       double tolerance) {
  const OutlineFoot a = nearest(outline, from);
  if (a.loop != nearest(outline, to).loop)
    throw InputError("to", "lies on another outline than from",
                     "both points on the same closed outline");
  Loop& loop = outline.loops[a.loop];
  // A hole is walked clockwise: counter-clockwise between two points is the
  // way back.
  const bool hole = area({{loop}}) < 0;
  cut_at(loop, nearest(Outline{{loop}}, hole ? to : from), tolerance);
  const std::size_t end =
      cut_at(loop, nearest(Outline{{loop}}, hole ? from : to), tolerance);
  // The second cut may have moved the first one's curve: look it up again.
  const std::size_t begin =
      cut_at(loop, nearest(Outline{{loop}}, hole ? to : from), tolerance);
  if (begin == end)
    throw InputError("to", "is the same point of the surface as from",
                     "two points apart, counter-clockwise from the first");
  for (std::size_t k = begin; k != end; k = (k + 1) % loop.size())
    loop[k].masked = true;
  return outline;
}

}  // namespace

Outline masked(const Outline& outline, const Mask& mask, const Point& shift,
               double tolerance) {
  if (!mask.between) return masked_faces(outline, mask);
  return masked_between(outline, (*mask.between)[0] + shift,
                        (*mask.between)[1] + shift, tolerance);
}

}  // namespace thinspot::mesh
