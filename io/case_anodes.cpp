#include "io/case_reading.hpp"

#include <fmt/format.h>

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

void read_kind(Reading& r, TableReader& t, solver::Anode& anode) {
  const std::string& plated = r.content.solution.metal.name;
  const auto kind = t.text("kind");
  anode.metal = t.text("metal").value_or("");
  anode.soluble = kind != "inert";
  if (anode.metal.empty() && anode.soluble) anode.metal = plated;
  if (!t.has("kind") && t.has("metal") && !plated.empty() &&
      anode.metal != plated)
    t.missing("kind", fmt::format("say kind = \"soluble\" or \"inert\": an "
                                  "anode not of {} may be either",
                                  plated));
  if (kind == "inert" && !t.has("open_circuit_voltage"))
    t.missing("open_circuit_voltage",
              "an inert anode needs a voltage before any current flows; give "
              "it, as in open_circuit_voltage = \"1.5 V +- 0.5 V\"");
}

void read_law(Reading& r, TableReader& t, solver::Anode& anode) {
  if (!read_polarization(t, anode.polarization) &&
      !t.has("polarization_resistance"))
    r.content.assumed.push_back(
        {t.address_of("polarization_resistance"), "0 ohm cm2",
         "left out; a clean anode of ample size hardly polarizes"});
  if (const auto given = t.quantity("open_circuit_voltage"))
    anode.open_circuit_voltage = *given;
  if (const auto given = t.quantity("bag_resistance"))
    anode.bag_resistance = *given;
}

void read_anode(Reading& r, TableReader& t) {
  solver::Anode anode;
  t.text("name");  // the address holds it; what is wrong with it is noted
  anode.name = name_in(t);
  if (anode.name == "part")
    t.wrong("name", "\"part\" is the part itself", "another name");
  read_kind(r, t, anode);
  read_law(r, t, anode);
  const bool placed = check_place_keys(t);
  std::optional<mesh::Solid> solid = read_solid(r, t, mesh::Role::anode);
  if (solid) {
    read_side(t, *solid);
    if (placed) check_on_axis(r, t, *solid);
    anode.solid = r.content.section.solids.size();
    r.content.section.solids.push_back(std::move(*solid));
  }
  r.content.anodes.push_back(std::move(anode));
}

}  // namespace

void read_anodes(Reading& r) {
  for (TableReader& t : open_tables(r, "anode")) read_anode(r, t);
}

void read_wires(Reading& r) {
  for (TableReader& t : open_tables(r, "wire")) {
    t.text("name");
    r.content.wires.push_back({name_in(t), t.value("diameter").value_or(0),
                               t.value("wetted").value_or(0),
                               t.flag("insulated").value_or(false)});
  }
}

}  // namespace thinspot::io
