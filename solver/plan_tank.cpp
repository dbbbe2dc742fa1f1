#include "solver/plan_tank.hpp"

#include "solver/step_case.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace thinspot::solver {

std::string free_name(const Case& c, const std::string& like,
                      const std::string& table) {
  for (int n = 1;; ++n) {
    const std::string name = n == 1 ? like : fmt::format("{} {}", like, n);
    const std::string key = table + "." + name;
    if (std::none_of(c.section.solids.begin(), c.section.solids.end(),
                     [&](const auto& s) { return s.key == key; }))
      return name;
  }
}

mesh::Box box_of_parts(const Case& c) {
  mesh::SectionSpec spec = c.section;
  spec.motion = {};
  const mesh::Section section = mesh::build_section(spec);
  std::optional<mesh::Box> all;
  for (const mesh::PlacedSolid& s : section.solids) {
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
