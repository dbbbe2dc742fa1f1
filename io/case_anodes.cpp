#include "io/case_reading.hpp"

#include <fmt/format.h>

namespace thinspot::io {

namespace {

void read_kind(CaseReading& r, TableReader& t, solver::Anode& anode) {
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

void read_law(CaseReading& r, TableReader& t, solver::Anode& anode) {
  if (!read_polarization(t, anode.polarization) &&
      !t.has("polarization_resistance"))
    r.content.assumed.push_back(
        {t.address_of("polarization_resistance"), "0 ohm cm2",
         "left out; a clean anode of ample size hardly polarizes"});
  if (const auto given = t.quantity("open_circuit_voltage"))
    anode.open_circuit_voltage = *given;
  if (const auto given = t.quantity("bag_resistance"))
    anode.bag_resistance = *given;
  anode.limit = t.quantity("limit");
}

void read_anode(CaseReading& r, TableReader& t) {
  solver::Anode anode;
  anode.name = name_in(t);
  read_kind(r, t, anode);
  read_law(r, t, anode);
  anode.rectifier = read_rectifier_of(r, t);
  anode.solid = read_beside_part(r, t, mesh::Role::anode).value_or(0);
  r.content.anodes.push_back(std::move(anode));
}

}  // namespace

void read_anodes(CaseReading& r) {
  for (TableReader& t : open_tables(r, "anode")) read_anode(r, t);
}

}  // namespace thinspot::io
