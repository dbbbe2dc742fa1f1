#include "io/case_reading.hpp"

#include "io/nearest.hpp"
#include "io/quote.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace thinspot::io {

namespace {

const mesh::ShapeKind* read_shape(TableReader& t) {
  const auto name = t.text("shape");
  if (!name) return nullptr;
  const mesh::ShapeKind* kind = mesh::find_shape(*name);
  if (kind) return kind;
  std::vector<std::string> names;
  for (const mesh::ShapeKind& k : mesh::shape_kinds())
    names.emplace_back(k.name);
  const auto near = nearest(*name, names);
  t.wrong("shape", in_quotes(*name) + " is not a shape",
          near ? fmt::format("is \"{}\" meant?", *near)
               : "it takes " + listed(names));
  return nullptr;
}

/// @returns false where one that must be there is not, or is wrong.
bool read_sizes(TableReader& t, const mesh::ShapeKind& kind,
                mesh::Sizes& sizes) {
  bool complete = true;
  for (const mesh::SizeKey& key : kind.sizes) {
    const auto size = t.value(key.name);
    if (size) sizes.emplace(key.name, *size);
    complete = complete && (size || (!key.required && !t.has(key.name)));
  }
  for (std::string_view key : kind.flags)
    if (const auto flag = t.flag(key)) sizes.emplace(key, *flag ? 1.0 : 0.0);
  return complete;
}

bool is_upright(double turn) {
  const double halves = turn / std::numbers::pi;
  return std::abs(halves - std::round(halves)) < 1e-9;
}

/// What holds where the section is turned about x = 0.
void check_axis(TableReader& t, const mesh::ShapeKind& kind,
                const mesh::Solid& solid) {
  const bool body = kind.real_area(solid.sizes).has_value();
  if (solid.side == mesh::Side::left)
    t.wrong("side", "left of the axis is the same as right of it",
            "side = \"right\"");
  else if (solid.side == mesh::Side::right && body)
    t.wrong("side", fmt::format("a {} must stand on the axis", kind.name),
            "above or below, or a plate, which becomes a ring");
  if (solid.side) return;
  const bool on_axis = solid.at.x() == 0;
  if (solid.at.x() < 0)
    t.wrong("at", "lies left of the axis",
            "x is the radius: 0 or more, as in at = [\"0 mm\", \"50 mm\"]");
  else if (body && !on_axis)
    t.wrong("at", fmt::format("a {} must stand on the axis", kind.name),
            "at = [\"0 mm\", y]; a ring is a plate beside the axis");
  else if (on_axis && !is_upright(solid.turn))
    t.wrong("turn", "turns a solid of revolution off its axis",
            "0 deg or 180 deg");
}

}  // namespace

std::optional<mesh::Solid> read_solid(Reading& r, TableReader& t,
                                      mesh::Role role) {
  mesh::Solid solid;
  solid.role = role;
  solid.name = name_in(t);
  solid.key = t.address();
  const mesh::ShapeKind* kind = read_shape(t);
  if (const auto at = t.point("at")) solid.at = *at;
  if (const auto turn = t.value("turn")) solid.turn = *turn;
  if (!kind) return std::nullopt;
  solid.shape = kind->name;
  if (!read_sizes(t, *kind, solid.sizes)) return std::nullopt;
  try {
    kind->outline(solid.sizes, r.content.section.cut);
  } catch (const InputError& error) {
    r.findings.add(t.address(), error);
    return std::nullopt;
  }
  return solid;
}

void check_on_axis(Reading& r, TableReader& t, const mesh::Solid& solid) {
  if (r.content.section.cut == mesh::Cut::axisymmetric)
    check_axis(t, *mesh::find_shape(solid.shape), solid);
}

}  // namespace thinspot::io
