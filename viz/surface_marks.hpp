#pragma once

#include "mesh/section.hpp"
#include "solver/result.hpp"
#include "viz/frame.hpp"
#include "viz/svg.hpp"

#include <string>
#include <vector>

namespace thinspot::viz {

/// A stretch of a part's surface that gets no coating, as points in order.
struct BareStretch {
  std::vector<std::size_t> points;  ///< of PartResult::surface
  bool lacquered = false;           ///< under stop-off lacquer
  bool dry = false;                 ///< out of the liquid
  std::string why;                  ///< in words, never empty
  /// Neither of the two: something touches the surface there.
  bool contact() const { return !lacquered && !dry; }
};

/// All of them, each loop from its lowest point.
std::vector<BareStretch> bare_stretches(const solver::Result& result,
                                        const solver::PartResult& part);

bool has_lacquer(const mesh::Section& section);

/// A row of bricks over what is masked of an outline.
void draw_lacquer(Svg& svg, const mesh::Outline& outline, const Frame& frame,
                  const std::string& clip, bool mirrored);

/// A white line along the places where something touches the part.
void draw_contacts(Svg& svg, const solver::Result& result,
                   const solver::PartResult& part, const Frame& frame,
                   const std::string& clip);

/// The same lines about a point, 22 units wide, for a legend.
void draw_lacquer_sign(Svg& svg, Point centre);
void draw_contact_sign(Svg& svg, Point centre);

}  // namespace thinspot::viz
