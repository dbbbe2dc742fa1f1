#pragma once

#include "mesh/section.hpp"

#include <string>

namespace thinspot::tests {

/// A solid by hand, named and keyed alike.
inline mesh::Solid solid(mesh::Role role, const std::string& name,
                         const std::string& shape, const mesh::Sizes& sizes,
                         const mesh::Point& at) {
  mesh::Solid s;
  s.name = s.key = name;
  s.role = role;
  s.shape = shape;
  s.sizes = sizes;
  s.at = at;
  return s;
}

/// A part that nothing in is symmetric, legs of 30 and 20 mm.
inline mesh::Solid bracket(double outside_radius, const mesh::Point& at) {
  return solid(mesh::Role::part, "part", "bracket",
               {{"leg_1", 0.03},
                {"leg_2", 0.02},
                {"thickness", 0.003},
                {"inside_radius", 0.001},
                {"outside_radius", outside_radius}},
               at);
}

}  // namespace thinspot::tests
