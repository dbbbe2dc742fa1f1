#pragma once

#include "mesh/curve.hpp"
#include "mesh/shape.hpp"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace thinspot::mesh {

enum class Role { part, clip, anode, thief, shield, floating };

enum class Side { left, right, above, below };

/// A solid as the case file describes it.
struct Solid {
  std::string name;  ///< "part", or the name given to the anode, clip …
  std::string key;   ///< address in the case file, as in "anode.sheet";
                     ///< no two solids share one
  Role role = Role::part;
  std::string shape;         ///< name of a ShapeKind, or "outline"
  Sizes sizes;               ///< [m]; flags are 1 or 0
  Outline drawn = {};        ///< of shape "outline": as it came from its file,
                             ///< its box centred on the origin [m]
  int copy = 0;              ///< place on the rack, from 1; 0: no rack
  Point at = Point::Zero();  ///< centre of the bounding box at turn 0 [m]
  double turn = 0;           ///< counter-clockwise [rad]
  /// In place of `at`: beside the part on this side, this free distance from
  /// it as a ruler measures it, centred on it [m].
  std::optional<Side> side;
  double gap = 0;
  /// Of a part: from its centre to the point that it turns and flips about,
  /// as a wire is hooked in elsewhere than at the middle [m].
  Point axis = Point::Zero();
};

/// Stop-off lacquer on a stretch of a solid's surface. Which stretch: the
/// faces, or what lies counter-clockwise between the points of the surface
/// nearest to the two given, as drawn.
struct Mask {
  std::string key;  ///< address in the case file, as in "mask.back"
  std::string on;   ///< key of the solid; of any copy on a rack without its
                    ///< number, as in "part"
  std::vector<std::string> faces;
  std::optional<std::array<Point, 2>> between;  ///< [m]; on a rack, on the
                                                ///< first copy
};

struct Tank {
  enum class Shape { box, round, outline };
  Shape shape = Shape::box;
  double width = 0;    ///< inner width, or diameter of a round tank [m]
  double height = 0;   ///< inner height, or second width in a plan view [m]
  double level = 0;    ///< of the liquid above the floor; unused in plan [m]
  Outline drawn = {};  ///< of Shape::outline: the inside, one loop, its box's
                       ///< lower left corner at the origin [m]
};

/// How the parts stand against how they are drawn, each about its own axis:
/// turned in the plane, then flipped, left and right changing places as in half
/// a turn about an upright wire. Masks go with them, all else stays.
struct Motion {
  bool flip = false;
  double turn = 0;  ///< counter-clockwise [rad]
  bool operator==(const Motion&) const = default;
};

struct SectionSpec {
  Cut cut = Cut::side;
  Tank tank;
  std::vector<Solid> solids;
  std::vector<Mask> masks;
  Motion motion = {};
};

/// The solid with a key; nullptr: there is none.
const Solid* find_solid(const SectionSpec& spec, const std::string& key);

/// A solid in its place. Masks cut its curves in two, the same way wherever it
/// stands; in an axisymmetric section it is cut at the axis (face "axis"). Its
/// curves keep their order whatever the place, so that (loop, curve, t) is a
/// point of the material; of a flipped one, flipped(place).
struct PlacedSolid {
  Solid spec;
  Outline outline;  ///< whole, also where it sticks out of the liquid
  bool flipped = false;
};

/// The place on a flipped outline of a curve's place on the one as drawn, and
/// the other way round: loops are walked backwards there.
struct Place {
  int loop = 0, curve = 0;
  double t = 0;
};
Place flipped(const Place& place, const Outline& outline);

/// A circle about a part with nothing but liquid between the two, and free of
/// all else: what is inside may turn against what is outside.
struct TurningDisc {
  std::size_t solid = 0;         ///< the part
  Point centre = Point::Zero();  ///< that it turns about
  double radius = 0;             ///< [m]
  double reach = 0;              ///< of the part from the centre [m]
  double free = 0;      ///< distance from the centre to what comes next [m]
  Outline circle = {};  ///< one loop, counter-clockwise
  double edge = 0;      ///< length that the mesh's edges on it should have [m]
};

/// All solids in their places inside the tank, checked.
struct Section {
  Cut cut = Cut::side;
  Tank tank;
  Outline liquid_bounds;  ///< tank below the level; faces "wall", "surface",
                          ///< "axis"
  std::vector<PlacedSolid> solids;
  std::vector<TurningDisc> discs = {};  ///< at which the mesh is to be cut
};

/// Place of a solid among Section::solids by its key.
/// @throws std::out_of_range where there is none
std::size_t index_of(const Section& section, const std::string& key);

/// Places every solid and checks that each lies at least partly in the liquid
/// and that none overlaps another that it must not: metal at another
/// potential, or another copy of the part.
/// @throws InputError naming every offending solid.
Section build_section(const SectionSpec& spec);

/// The same with the parts where they are drawn, whatever motion has done.
/// @throws InputError likewise.
Section build_as_drawn(SectionSpec spec);

/// Outline of a solid around the origin at turn 0, unmasked.
/// @throws InputError with keys relative to the solid.
Outline outline_at_origin(const Solid& solid, Cut cut);

/// The solids of one drawn part (itself, its clips) once for each place of a
/// rack: moved with the part, named and keyed with the number of the place
/// ("part.2"), `copy` set.
/// @param places  centres of the part [m]; the first is where it is drawn
std::vector<Solid> copies_on_rack(const std::vector<Solid>& drawn,
                                  const std::vector<Point>& places);

/// Key of a solid without the number of its place: "part" for "part.2".
std::string key_without_copy(const Solid& solid);

/// The point that a part turns and flips about [m].
Point axis_of(const Solid& part);

bool is_electrode(Role role);

}  // namespace thinspot::mesh
