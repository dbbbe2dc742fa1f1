#include "io/case_reading.hpp"

#include "io/nearest.hpp"
#include "io/phrases.hpp"
#include "io/quote.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io {

namespace {

/// @returns false where there is no such shape.
bool read_shape(TableReader& t, mesh::Solid& solid) {
  const auto name = t.text("shape");
  if (!name) return false;
  solid.shape = *name;
  if (*name == kOutlineShape || mesh::find_shape(*name)) return true;
  std::vector<std::string> names;
  for (const mesh::ShapeKind& k : mesh::shape_kinds())
    names.emplace_back(k.name);
  names.emplace_back(kOutlineShape);
  const auto near = nearest(*name, names);
  t.wrong("shape", in_quotes(*name) + " is not a shape",
          near ? fmt::format("is \"{}\" meant?", *near)
               : "it takes " + with_or(names));
  return false;
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

bool read_form(CaseReading& r, TableReader& t, mesh::Solid& solid) {
  if (!read_shape(t, solid)) return false;
  if (const mesh::ShapeKind* kind = mesh::find_shape(solid.shape))
    return read_sizes(t, *kind, solid.sizes);
  const auto drawn = read_drawing(r, t);
  if (!drawn) return false;
  solid.drawn = mesh::moved(*drawn, 0, -mesh::bounding_box(*drawn).centre());
  return true;
}

}  // namespace

std::optional<mesh::Solid> read_solid(CaseReading& r, TableReader& t,
                                      mesh::Role role) {
  mesh::Solid solid;
  solid.role = role;
  solid.name = name_in(t);
  solid.key = t.address();
  r.faces[solid.key];
  if (const auto at = t.point("at")) solid.at = *at;
  if (const auto turn = t.value("turn")) solid.turn = *turn;
  if (!read_form(r, t, solid)) return std::nullopt;
  try {
    mesh::outline_at_origin(solid, r.content.section.cut);
  } catch (const InputError& error) {
    r.findings.add(t.address(), error);
    return std::nullopt;
  }
  return solid;
}

void keep_faces(CaseReading& r, const mesh::Solid& solid) {
  std::vector<std::string>& faces = r.faces[solid.key];
  const mesh::Outline outline =
      mesh::outline_at_origin(solid, r.content.section.cut);
  for (const mesh::Loop& loop : outline.loops)
    for (const mesh::Curve& curve : loop)
      if (std::find(faces.begin(), faces.end(), curve.face) == faces.end())
        faces.push_back(curve.face);
}

void check_faces(CaseReading& r, TableReader& t, std::string_view key,
                 const std::vector<std::string>& faces,
                 const std::string& solid) {
  const std::vector<std::string>& known = r.faces[solid];
  if (known.empty()) return;
  for (const std::string& face : faces) {
    if (std::find(known.begin(), known.end(), face) != known.end()) continue;
    const auto near = nearest(face, known);
    t.wrong(key,
            fmt::format("{} is not a face of {}", in_quotes(face),
                        solid == "part" ? "the part" : solid),
            near ? fmt::format("is \"{}\" meant?", *near)
                 : "it has " + with_or(known));
  }
}

}  // namespace thinspot::io
