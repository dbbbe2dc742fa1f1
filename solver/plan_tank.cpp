#include "solver/plan_tank.hpp"

#include "solver/step_case.hpp"

#include <fmt/format.h>

#include <optional>

namespace thinspot::solver {

std::string free_name(const Case& c, const std::string& like,
                      const std::string& table) {
  for (int n = 1;; ++n) {
    const std::string name = n == 1 ? like : fmt::format("{} {}", like, n);
    const std::string key = table + "." + name;
    if (!mesh::find_solid(c.section, key)) return name;
  }
}

mesh::Box box_of_parts(const mesh::Section& drawn) {
  std::optional<mesh::Box> all;
  for (const mesh::PlacedSolid& s : drawn.solids) {
    if (s.spec.role != mesh::Role::part) continue;
    const mesh::Box box = mesh::bounding_box(s.outline);
    if (!all) all = box;
    all->low = all->low.cwiseMin(box.low);
    all->high = all->high.cwiseMax(box.high);
  }
  return *all;
}

Case without_anodes(const Case& c, const std::vector<std::string>& names) {
  Case one = c;
  Step step = c.steps.front();
  step.off.clear();
  step.lifted = names;
  step.clips.reset();
  one.steps = {step};
  Case fewer = case_of_step(one, 0);
  fewer.section.motion = c.section.motion;
  fewer.supply = c.supply;
  fewer.rectifiers = c.rectifiers;
  fewer.solution = c.solution;
  fewer.clips = c.clips;
  fewer.steps = c.steps;
  return fewer;
}

}  // namespace thinspot::solver
