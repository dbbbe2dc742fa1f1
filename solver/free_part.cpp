#include "solver/free_part.hpp"

#include "mesh/errors.hpp"
#include "mesh/turning_disc.hpp"
#include "solver/judged.hpp"
#include "solver/model.hpp"
#include "solver/turnable.hpp"

#include <algorithm>
#include <utility>

namespace thinspot::solver {

namespace {

/// What leaving out waves may change currents by: a tenth of what the coarse
/// mesh around does.
constexpr double kShareOfWaves = 2e-4;
/// Of the tank that a part is meshed alone in, over its own length.
constexpr double kTank = 12;

/// The part in the middle of a tank of its own, with an anode in a corner, as
/// liquid without one carries no current.
Case alone(const Case& c) {
  Case one = c;
  one.section.motion = {};
  one.section.solids.clear();
  one.anodes.clear();
  one.clips.clear();
  one.thieves.clear();
  one.floating.clear();
  one.probes.clear();
  const auto part =
      std::find_if(c.section.solids.begin(), c.section.solids.end(),
                   [](const auto& s) { return s.role == mesh::Role::part; });
  mesh::Solid solid = *part;
  const mesh::Box box =
      mesh::bounding_box(mesh::outline_at_origin(solid, c.section.cut));
  const double side = kTank * (box.size().norm() + solid.axis.norm());
  const mesh::Point shift = mesh::Point(side, side) / 2 - solid.at;
  solid.at += shift;
  for (mesh::Mask& mask : one.section.masks)
    if (mask.between)
      for (mesh::Point& p : *mask.between) p += shift;
  std::erase_if(one.section.masks,
                [](const mesh::Mask& m) { return m.on != "part"; });
  one.section.tank = {mesh::Tank::Shape::box, side, side, side, {}};
  one.section.solids.push_back(std::move(solid));
  mesh::Solid anode;
  anode.name = anode.key = "anode";
  anode.role = mesh::Role::anode;
  anode.shape = "rod";
  anode.sizes = {{"diameter", side / 20}};
  anode.at = mesh::Point(side, side) / 20;
  one.section.solids.push_back(std::move(anode));
  Anode any;
  any.name = "anode";
  any.solid = 1;
  one.anodes.push_back(std::move(any));
  return one;
}

}  // namespace

FreePart::FreePart(const Case& c) : alone_(alone(c)) {}

FreePart::Inside FreePart::made(double radius, int waves) const {
  Inside result;
  mesh::Section section = mesh::build_section(alone_.section);
  section.discs = mesh::free_discs(section);
  if (section.discs.empty())
    throw NoResultError(
        "the part has no circle of liquid about it in which it could turn");
  mesh::set_radius(section.discs.front(), radius, waves);
  const mesh::Mesh mesh =
      mesh::generate_side(section, grading_of(alone_), mesh::DiscSide::inside);
  result.half = half_response(mesh, section, mesh::DiscSide::inside, waves);
  result.surface = unroll(mesh, section, result.half.electrodes, 0);
  mark_judged(result.surface, section, 0, alone_);
  result.radius = radius;
  return result;
}

const FreePart::Inside* FreePart::inside(const mesh::TurningDisc& disc) {
  for (std::size_t k = 0; k < kCircles.size(); ++k) {
    const double radius = kCircles[k] * disc.reach;
    const double least = kCircles[k] * radius;  // equal shares, by ratio
    if (disc.free < least) continue;
    if (!made_[k]) {
      mesh::TurningDisc worst = disc;
      worst.free = least;
      made_[k] = std::make_unique<Inside>(
          made(radius, waves_for(worst, kShareOfWaves)));
    }
    return made_[k].get();
  }
  return nullptr;
}

}  // namespace thinspot::solver
