#include "viz/solid_look.hpp"

#include "viz/palette.hpp"

#include <algorithm>

namespace thinspot::viz {

namespace {

struct Look {
  const char* fill;
  const char* lines;  ///< nullptr: plain
  Pattern pattern = Pattern::slanted;
  double spacing = 6;
};

Look look_of(SolidKind kind) {
  switch (kind) {
    case SolidKind::part: break;
    case SolidKind::clip: return {"#8d8a96", "#2c2a33", Pattern::crossed, 5};
    case SolidKind::soluble_anode: return {"#a5673f", nullptr};
    case SolidKind::inert_anode:
      return {"#ecdccb", "#7c4523", Pattern::upright, 4};
    case SolidKind::thief: return {"#d3c8e2", "#5b4578", Pattern::level, 4};
    case SolidKind::shield: return {"#a3b083", "#3c4726", Pattern::slanted, 6};
    case SolidKind::floating: return {"#f2f3f5", "#3f4651", Pattern::dots, 5};
  }
  return {"#cdc9c0", nullptr};
}

/// Dark where metal dissolves, white the part, patterns as in colour.
Look look_in_black(SolidKind kind) {
  Look look = look_of(kind);
  look.fill = kind == SolidKind::soluble_anode ? "#666" : "#fff";
  if (look.lines != nullptr) look.lines = "#333";
  return look;
}

void draw(Svg& svg, const PathText& d, const Look& look, double width,
          const char* edge, const std::string& clip) {
  svg.path(d,
           {.fill = look.fill, .stroke = edge, .width = width, .clip = clip});
  if (look.lines != nullptr)
    svg.path(d, {.fill = svg.pattern(look.pattern, look.lines, look.spacing),
                 .clip = clip});
}

}  // namespace

SolidKind kind_of(const mesh::Section& section, const solver::Case& c,
                  std::size_t solid) {
  switch (section.solids[solid].spec.role) {
    case mesh::Role::part: return SolidKind::part;
    case mesh::Role::clip: return SolidKind::clip;
    case mesh::Role::thief: return SolidKind::thief;
    case mesh::Role::shield: return SolidKind::shield;
    case mesh::Role::floating: return SolidKind::floating;
    case mesh::Role::anode: break;
  }
  const bool inert = std::any_of(
      c.anodes.begin(), c.anodes.end(),
      [&](const solver::Anode& a) { return a.solid == solid && !a.soluble; });
  return inert ? SolidKind::inert_anode : SolidKind::soluble_anode;
}

std::vector<SolidKind> kinds_in(const mesh::Section& section,
                                const solver::Case& c) {
  std::vector<SolidKind> kinds;
  for (std::size_t k = 0; k < section.solids.size(); ++k)
    kinds.push_back(kind_of(section, c, k));
  std::sort(kinds.begin(), kinds.end());
  kinds.erase(std::unique(kinds.begin(), kinds.end()), kinds.end());
  return kinds;
}

void draw_solid(Svg& svg, const PathText& d, SolidKind kind,
                const std::string& clip) {
  draw(svg, d, look_of(kind), 0.8, colour::ink, clip);
}

void draw_solid_in_black(Svg& svg, const PathText& d, SolidKind kind,
                         const std::string& clip) {
  draw(svg, d, look_in_black(kind), kind == SolidKind::part ? 1.4 : 0.9, "#000",
       clip);
}

std::string role_word(mesh::Role role) {
  switch (role) {
    case mesh::Role::part: return "";
    case mesh::Role::clip: return "clip";
    case mesh::Role::anode: return "anode";
    case mesh::Role::thief: return "thief";
    case mesh::Role::shield: return "shield";
    case mesh::Role::floating: return "unconnected";
  }
  return "";
}

std::string kind_words(SolidKind kind) {
  switch (kind) {
    case SolidKind::part: break;
    case SolidKind::clip: return "clip: holds the part, is plated too";
    case SolidKind::soluble_anode: return "anode that dissolves";
    case SolidKind::inert_anode: return "anode that does not dissolve";
    case SolidKind::thief: return "thief: takes current off the part's edges";
    case SolidKind::shield: return "shield: lets no current through";
    case SolidKind::floating: return "unconnected metal";
  }
  return "";
}

}  // namespace thinspot::viz
