#pragma once

#include "mesh/errors.hpp"
#include "mesh/outline.hpp"
#include "tests/scratch.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numbers>
#include <string>
#include <vector>

namespace thinspot::tests {

/// A drawing in a file of that name, read.
inline mesh::DrawnOutline read_text(const std::string& name,
                                    const std::string& text,
                                    const mesh::OutlineOptions& options = {}) {
  const Scratch folder;
  put(folder / name, text);
  return mesh::read_outline(folder / name, options);
}

/// What reading it complains of: wrong, a bar, how to mend it; empty where it
/// does not.
inline std::string refusal(const std::string& name, const std::string& text) {
  try {
    read_text(name, text);
  } catch (const InputError& error) {
    REQUIRE(error.problems().size() == 1);
    const Problem& p = error.problems().front();
    CHECK(p.key == "file");
    CHECK_FALSE(p.mend.empty());
    CHECK(p.wrong.find('\n') == std::string::npos);
    return p.wrong + " | " + p.mend;
  }
  return "";
}

/// One entity of a DXF: its name, its layer, its groups.
struct Group {
  int code;
  double value;
};

inline std::string entity(const std::string& name,
                          const std::vector<Group>& groups,
                          const std::string& layer = "0") {
  std::string text = fmt::format("0\n{}\n8\n{}\n", name, layer);
  for (const Group& g : groups)
    text += fmt::format("{}\n{}\n", g.code, g.value);
  return text;
}

inline std::string line(double x1, double y1, double x2, double y2,
                        const std::string& layer = "0") {
  return entity("LINE", {{10, x1}, {20, y1}, {11, x2}, {21, y2}}, layer);
}

/// A whole DXF; insunits 0: none said.
inline std::string dxf(const std::string& entities, int insunits = 4) {
  std::string text = "0\nSECTION\n2\nHEADER\n";
  if (insunits != 0) text += fmt::format("9\n$INSUNITS\n70\n{}\n", insunits);
  return text + "0\nENDSEC\n0\nSECTION\n2\nENTITIES\n" + entities +
         "0\nENDSEC\n0\nEOF\n";
}

/// Largest angle between the directions of pieces where they meet [rad].
inline double largest_kink(const mesh::Outline& o) {
  double largest = 0;
  for (const mesh::Loop& loop : o.loops)
    for (std::size_t k = 0; k < loop.size(); ++k) {
      const mesh::Point a = outward_normal(loop[k], 1);
      const mesh::Point b = outward_normal(loop[(k + 1) % loop.size()], 0);
      largest = std::max(
          largest,
          std::abs(std::atan2(a.x() * b.y() - a.y() * b.x(), a.dot(b))));
    }
  return largest;
}

/// Distance of a point from the outline [m].
inline double distance_from(const mesh::Outline& o, const mesh::Point& p) {
  double least = 1e30;
  for (const mesh::Loop& loop : o.loops)
    for (const mesh::Curve& c : loop)
      least = std::min(least, nearest(c, p).distance);
  return least;
}

}  // namespace thinspot::tests
