#include "mesh/errors.hpp"
#include "mesh/millimetres.hpp"
#include "mesh/shape_sizes.hpp"
#include "mesh/shapes.hpp"

namespace thinspot::mesh {

namespace {

/// Flatter than this share of the chord, the arc is a straight strip to every
/// other number of a case.
constexpr double kFlattest = 1e-5;

/// Circular arc through the ends of the chord: the middle line of the strip.
struct MiddleLine {
  double chord, sagitta, radius;
};

MiddleLine middle_line(const Sizes& sizes) {
  const double chord = length_of(sizes, "chord");
  const auto given = sizes.find("sagitta");
  if (given != sizes.end() && given->second >= 0 &&
      given->second < kFlattest * chord)
    throw InputError("sagitta", in_mm(given->second) + " is a flat strip",
                     "shape = \"plate\", or the depth of the bowl");
  const double sagitta = length_of(sizes, "sagitta");
  check_fits("sagitta", sagitta, chord / 2,
             "a chord of " + in_mm(chord) + " ends at half a circle");
  return {chord, sagitta,
          (chord * chord / 4 + sagitta * sagitta) / (2 * sagitta)};
}

/// The box around it is (chord + thickness) wide and (sagitta + thickness)
/// high, so that the middle line runs from -sagitta/2 up to its ends at
/// +sagitta/2.
Outline spoon_outline(const Sizes& sizes, Cut cut) {
  const MiddleLine line = middle_line(sizes);
  const double thickness = length_of(sizes, "thickness");
  check_below("thickness", thickness, 2 * line.radius,
              "is too thick for a middle line bent to a radius of " +
                  in_mm(line.radius));
  const double x = line.chord / 2, y = line.sagitta / 2;
  // From the end of the middle line straight away from the arc's centre.
  const double across = thickness / 2;
  const double dx = across * x / line.radius;
  const double dy = across * (line.radius - line.sagitta) / line.radius;
  const Point back_left(-x - dx, y - dy), back_right(x + dx, y - dy);
  const Point bowl_left(-x + dx, y + dy), bowl_right(x - dx, y + dy);
  const double bulge = 2 * line.sagitta / line.chord;
  const bool turned = cut == Cut::axisymmetric;  // both ends are one rim
  return {{{{back_left, back_right, bulge, "back"},
            {back_right, bowl_right, 1, turned ? "rim" : "tip"},
            {bowl_right, bowl_left, -bulge, "bowl"},
            {bowl_left, back_left, 1, turned ? "rim" : "heel"}}}};
}

/// How broad the strip is, the section does not tell.
std::optional<double> spoon_area(const Sizes&) { return std::nullopt; }

}  // namespace

ShapeKind spoon_shape() {
  return {"spoon",
          {{"chord", true, 0, "of the middle line, straight from end to end"},
           {"sagitta", true, 0, "depth of that line; at most half the chord"},
           {"thickness", true, 0, "of the strip; its ends are half circles"}},
          {},
          spoon_outline,
          spoon_area};
}

}  // namespace thinspot::mesh
