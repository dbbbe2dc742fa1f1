#pragma once

#include "mesh/section.hpp"
#include "solver/case.hpp"
#include "viz/svg.hpp"

#include <string>
#include <vector>

namespace thinspot::viz {

/// What pictures tell apart: roles, and whether an anode dissolves.
enum class SolidKind {
  part,
  clip,
  soluble_anode,
  inert_anode,
  thief,
  shield,
  floating
};

SolidKind kind_of(const mesh::Section& section, const solver::Case& c,
                  std::size_t solid);

/// Those in the section, each once, in the order of SolidKind.
std::vector<SolidKind> kinds_in(const mesh::Section& section,
                                const solver::Case& c);

/// Colour and pattern, by which each kind is known in print too.
void draw_solid(Svg& svg, const PathText& d, SolidKind kind,
                const std::string& clip);

/// The same in black on white, for sheets that go through any printer.
void draw_solid_in_black(Svg& svg, const PathText& d, SolidKind kind,
                         const std::string& clip);

/// "anode", "clip" …, for labels; empty for the part.
std::string role_word(mesh::Role role);

/// What a legend says of it; empty for the part.
std::string kind_words(SolidKind kind);

}  // namespace thinspot::viz
