#include "solver/same_part.hpp"

#include "mesh/errors.hpp"
#include "mesh/shape.hpp"
#include "solver/model.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

namespace thinspot::solver {

namespace {

using mesh::Curve;
using mesh::Cut;
using mesh::Outline;
using mesh::Solid;

/// Lengths are one where they differ by less than this share, a hundred times
/// finer than the drawing of any part.
constexpr double kSame = 1e-6;

struct Difference {
  std::string key;    ///< in the case file
  std::string value;  ///< of the layer in question
  std::string other;  ///< of the first one
};

bool differ(double a, double b) {
  return std::abs(a - b) > kSame * std::max(std::abs(a), std::abs(b));
}

std::string words_for(Cut cut) {
  switch (cut) {
    case Cut::side: return "planar, seen from the side";
    case Cut::plan: return "planar, seen from above";
    case Cut::axisymmetric: return "axisymmetric";
  }
  return "";
}

/// Where two values differ in the last digits alone, as many digits as show it.
std::string in_full_mm(double metres) {
  return fmt::format("{:.7g} mm", 1e3 * metres);
}

bool is_flag(const Solid& solid, const std::string& key) {
  const mesh::ShapeKind* kind = mesh::find_shape(solid.shape);
  return kind && std::find(kind->flags.begin(), kind->flags.end(), key) !=
                     kind->flags.end();
}

std::string size_text(const Solid& solid, const std::string& key) {
  const auto found = solid.sizes.find(key);
  if (found == solid.sizes.end()) return "not given";
  if (is_flag(solid, key)) return found->second != 0 ? "true" : "false";
  return in_full_mm(found->second);
}

std::optional<Difference> of_sizes(const Solid& here, const Solid& first) {
  std::set<std::string> keys;
  for (const auto* sizes : {&here.sizes, &first.sizes})
    for (const auto& [key, metres] : *sizes) keys.insert(key);
  for (const std::string& key : keys) {
    const auto a = here.sizes.find(key), b = first.sizes.find(key);
    const bool both = a != here.sizes.end() && b != first.sizes.end();
    if (both && !differ(a->second, b->second)) continue;
    return Difference{"part." + key, size_text(here, key),
                      size_text(first, key)};
  }
  return std::nullopt;
}

std::string outline_text(const Outline& o) {
  std::size_t curves = 0;
  for (const mesh::Loop& loop : o.loops) curves += loop.size();
  const mesh::Point size = mesh::bounding_box(o).size();
  return fmt::format("an outline of {} curves, {} by {}", curves,
                     in_full_mm(size.x()), in_full_mm(size.y()));
}

bool same_outline(const Outline& a, const Outline& b) {
  if (a.loops.size() != b.loops.size()) return false;
  const double near = kSame * mesh::bounding_box(b).size().maxCoeff();
  for (std::size_t l = 0; l < a.loops.size(); ++l) {
    if (a.loops[l].size() != b.loops[l].size()) return false;
    for (std::size_t k = 0; k < a.loops[l].size(); ++k) {
      const Curve &p = a.loops[l][k], &q = b.loops[l][k];
      if (p.face != q.face) return false;
      for (double t : {0.0, 0.5})
        if ((mesh::point_at(p, t) - mesh::point_at(q, t)).norm() > near)
          return false;
    }
  }
  return true;
}

/// Of a planar section with nothing in it but the part [m].
double depth_of(const Case& c, const Solid& part) {
  mesh::Section alone;
  alone.cut = c.section.cut;
  for (const Solid& solid : c.section.solids)
    alone.solids.push_back({solid, {}});
  alone.solids[part_solids(c).front()].outline =
      mesh::outline_at_origin(part, c.section.cut);
  return section_depth(c, alone);
}

std::string places_text(const Case& c) {
  return c.rack ? fmt::format("a rack of {}", c.rack->at.size())
                : std::string("one part without a rack");
}

std::optional<Difference> between(const Case& c, const Case& first) {
  if (c.section.cut != first.section.cut)
    return Difference{"section", words_for(c.section.cut),
                      words_for(first.section.cut)};
  const std::vector<std::size_t> parts = part_solids(c),
                                 others = part_solids(first);
  if (c.rack.has_value() != first.rack.has_value() ||
      parts.size() != others.size())
    return Difference{"rack", places_text(c), places_text(first)};
  if (parts.empty()) return std::nullopt;  // the solver will say so
  const Solid& here = c.section.solids[parts.front()];
  const Solid& there = first.section.solids[others.front()];
  if (here.shape != there.shape)
    return Difference{"part.shape", here.shape, there.shape};
  if (auto sizes = of_sizes(here, there)) return sizes;
  const Outline a = mesh::outline_at_origin(here, c.section.cut);
  const Outline b = mesh::outline_at_origin(there, c.section.cut);
  if (!same_outline(a, b)) {
    std::string other = outline_text(b);
    if (other == outline_text(a)) other += " that runs otherwise";
    return Difference{"part.file", outline_text(a), other};
  }
  // Cut at the axis, a turned part shows another half of itself.
  if (c.section.cut == Cut::axisymmetric) {
    if (std::abs(here.turn - there.turn) <= kSame) return std::nullopt;
    const auto degrees = [](double turn) {
      return fmt::format("{:.4g} deg", turn * 180 / std::acos(-1.0));
    };
    return Difference{"part.turn", degrees(here.turn), degrees(there.turn)};
  }
  const double depth = depth_of(c, here), other = depth_of(first, there);
  if (differ(depth, other)) {
    const double length = mesh::perimeter(a);
    const auto text = [length](double d) {
      return fmt::format("{} deep, {:.7g} cm2 in all", in_full_mm(d),
                         1e4 * d * length);
    };
    return Difference{c.depth ? "depth" : "part.area", text(depth),
                      text(other)};
  }
  return std::nullopt;
}

}  // namespace

std::string file_of_layer(const Case& c, std::size_t layer) {
  return c.file.empty() ? fmt::format("layer {}", layer + 1) : c.file;
}

void check_same_part(const std::vector<Case>& layers) {
  const std::string first = file_of_layer(layers.front(), 0);
  for (std::size_t k = 1; k < layers.size(); ++k)
    if (const auto found = between(layers[k], layers.front()))
      throw InputError({{found->key,
                         fmt::format("is {}, but {} in {}", found->value,
                                     found->other, first),
                         "layers go on the same part: draw it alike in both "
                         "files (its place, turn, masks and clips may differ)",
                         file_of_layer(layers[k], k)}});
}

mesh::Point as_drawn_there(const mesh::Solid& here, const mesh::Solid& there,
                           const mesh::Point& at) {
  const double turn = there.turn - here.turn;
  if (turn == 0 && here.at == there.at) return at;
  const double c = std::cos(turn), s = std::sin(turn);
  const mesh::Point way = at - here.at;
  return there.at +
         mesh::Point(c * way.x() - s * way.y(), s * way.x() + c * way.y());
}

}  // namespace thinspot::solver
