#include "viz/scene.hpp"

#include "viz/marks.hpp"

#include <algorithm>

namespace thinspot::viz {

namespace {

bool is_part(const mesh::PlacedSolid& solid) {
  return solid.spec.role == mesh::Role::part;
}

}  // namespace

Scene scene_of(const solver::Result& result) {
  return {result.section, result.used, shown_part(result).solid};
}

Scene scene_of(const solver::Case& c, const mesh::Section& section) {
  const auto& solids = section.solids;
  const auto first = std::find_if(solids.begin(), solids.end(), is_part);
  return {section, c, static_cast<std::size_t>(first - solids.begin())};
}

bool is_rack(const mesh::Section& section) {
  return std::count_if(section.solids.begin(), section.solids.end(), is_part) >
         1;
}

}  // namespace thinspot::viz
