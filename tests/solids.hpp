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

}  // namespace thinspot::tests
