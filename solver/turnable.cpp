#include "solver/turnable.hpp"

#include "mesh/refine.hpp"
#include "mesh/turning_disc.hpp"
#include "solver/stopwatch.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace thinspot::solver {

namespace {

/// More waves than these cost what meshes at every angle do.
constexpr int kMostWaves = 100;
/// Of the tolerance, what leaving out waves may take.
constexpr double kShareOfWaves = 0.1;

/// Waves that a case needs in the worst of its circles.
int waves_needed(const std::vector<mesh::TurningDisc>& discs, const Case& c) {
  int most = 0;
  for (const mesh::TurningDisc& disc : discs)
    most =
        std::max(most, waves_for(disc, kShareOfWaves * c.accuracy.tolerance));
  return most;
}

/// Only dense responses can be of a turnable. Nodes are two an edge; shields
/// count as well, which errs to the safe side.
bool too_large(const Turnable& t) {
  return 2 * std::count_if(
                 t.mesh.boundary.begin(), t.mesh.boundary.end(),
                 [](const auto& e) { return e.owner >= 0 && !e.masked; }) >
         kMostDenseRows;
}

/// A flipped part shows its turn from behind.
double angle_of(const Turnable& t, const Case& c) {
  const double turn = c.section.motion.turn - t.motion.turn;
  return t.motion.flip ? -turn : turn;
}

void respond(Turnable& t, int waves) {
  const Stopwatch watch;
  t.response =
      std::make_shared<const TurningResponse>(t.mesh, t.section, waves);
  t.response_seconds += watch.seconds();
}

}  // namespace

int waves_for(const mesh::TurningDisc& disc, double share) {
  return static_cast<int>(std::ceil(1 + 0.5 * std::log(1 / share) /
                                            std::log(disc.free / disc.reach)));
}

std::optional<Turnable> build_turnable(const Case& c, int waves) {
  const Stopwatch watch;
  Turnable t;
  t.motion = c.section.motion;
  t.section = mesh::build_section(c.section);
  t.section.discs = mesh::free_discs(t.section);
  if (t.section.discs.empty()) return std::nullopt;
  if (waves == 0) waves = waves_needed(t.section.discs, c);
  if (waves > kMostWaves) return std::nullopt;
  for (mesh::TurningDisc& d : t.section.discs)
    mesh::set_radius(d, d.radius, waves);
  t.mesh = mesh::generate(t.section, grading_of(c));
  if (too_large(t)) return std::nullopt;
  t.mesh_seconds = watch.seconds();
  respond(t, waves);
  return t;
}

std::optional<Turnable> refined(const Turnable& turnable,
                                std::span<const int> triangles) {
  const Stopwatch watch;
  Turnable t = turnable;
  t.mesh = mesh::refined(turnable.mesh, turnable.section, triangles);
  t.mesh_seconds += watch.seconds();
  if (too_large(t)) return std::nullopt;
  respond(t, turnable.response->waves());
  return t;
}

Response turned_response(const Turnable& t, const Case& c, int fewer) {
  return {t.response, angle_of(t, c), std::max(0, t.response->waves() - fewer)};
}

Model turned_model(const Turnable& t, const Case& c) {
  mesh::Section section = mesh::build_section(c.section);
  section.discs = t.section.discs;
  return build_model(c, std::move(section),
                     mesh::turned(t.mesh, t.section.discs, angle_of(t, c)),
                     turned_response(t, c, 0));
}

}  // namespace thinspot::solver
