#include "io/case_reading.hpp"

namespace thinspot::io {

namespace {

void read_side(TableReader& t, mesh::Solid& solid) {
  const auto side = t.text("side");
  if (side == "left") solid.side = mesh::Side::left;
  if (side == "right") solid.side = mesh::Side::right;
  if (side == "above") solid.side = mesh::Side::above;
  if (side == "below") solid.side = mesh::Side::below;
  if (const auto gap = t.value("gap")) solid.gap = *gap;
}

/// Either `at`, or `side` and `gap`. @returns false where neither is whole.
bool check_place_keys(TableReader& t) {
  const bool at = t.has("at"), side = t.has("side"), gap = t.has("gap");
  if (at && (side || gap)) {
    t.wrong("at", "the place is given by side or gap as well",
            "give at, or side and gap");
    return false;
  }
  if (side && !gap)
    t.missing("gap",
              "give the free distance to the part, as in "
              "gap = \"35 mm\"");
  if (gap && !side)
    t.missing("side",
              "say on which side of the part: left, right, above or "
              "below");
  if (!at && !side && !gap)
    t.missing("at", "give at = [\"10 mm\", \"50 mm\"], or side and gap");
  return at || (side && gap);
}

}  // namespace

std::optional<std::size_t> read_beside_part(CaseReading& r, TableReader& t,
                                            mesh::Role role) {
  t.text("name");  // the address holds it; what is wrong with it is noted
  const std::string name = name_in(t);
  // Copies of the part on a rack are called part.1, part.2 …
  if (name == "part" || name.starts_with("part."))
    t.wrong("name", "\"part\" is the part itself", "another name");
  const bool placed = check_place_keys(t);
  std::optional<mesh::Solid> solid = read_solid(r, t, role);
  if (!solid) return std::nullopt;
  read_side(t, *solid);
  if (placed)
    check_on_axis(r, *solid, t.address_of(solid->side ? "side" : "at"));
  keep_faces(r, *solid);
  std::vector<mesh::Solid>& solids = r.content.section.solids;
  solids.push_back(std::move(*solid));
  return solids.size() - 1;
}

}  // namespace thinspot::io
