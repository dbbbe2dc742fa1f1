// What stands in the tank beside part and anodes.
#include "io/case_reading.hpp"
#include "solver/polarization.hpp"

#include <fmt/format.h>

namespace thinspot::io {

namespace {

/// The slope's keys, where there is a slope.
std::optional<solver::Polarization> read_own_law(CaseReading& r,
                                                 TableReader& t) {
  solver::Polarization law;
  const bool own = read_polarization(t, law);
  read_mass_transfer(r, t, law);
  if (own) return law;
  if (t.has("mass_transfer") && !t.has("polarization_resistance"))
    t.wrong("mass_transfer", "serves with a law of its own only",
            "leave it out: it plates as the part does");
  if (t.has("polarization_offset") && !t.has("polarization_resistance"))
    t.wrong("polarization_offset", "serves with polarization_resistance only",
            "give that as well, or leave this out: it plates as the part does");
  return std::nullopt;
}

}  // namespace

void read_shields(CaseReading& r) {
  for (TableReader& t : open_tables(r, "shield"))
    read_beside_part(r, t, mesh::Role::shield);
}

void read_thieves(CaseReading& r) {
  for (TableReader& t : open_tables(r, "thief")) {
    solver::Thief thief;
    thief.name = name_in(t);
    if (const auto given = t.quantity("resistance")) thief.resistance = *given;
    thief.polarization = read_own_law(r, t);
    thief.solid = read_beside_part(r, t, mesh::Role::thief).value_or(0);
    r.content.thieves.push_back(std::move(thief));
  }
}

void read_floating(CaseReading& r) {
  for (TableReader& t : open_tables(r, "floating")) {
    solver::Floating floating;
    floating.name = name_in(t);
    floating.metal = t.text("metal").value_or("");
    floating.solid = read_beside_part(r, t, mesh::Role::floating).value_or(0);
    if (const auto given = t.quantity("polarization_resistance")) {
      floating.resistance = *given;
    } else if (!t.has("polarization_resistance")) {
      floating.resistance =
          solver::linearized(r.content.cathode, r.content.solution, false,
                             likely_density(r))
              .resistance;
      r.content.assumed.push_back(
          {t.address_of("polarization_resistance"),
           fmt::format("{:.3g} ohm cm2", 1e4 * floating.resistance.value),
           "left out; the part's own slope, where it plates and where it "
           "dissolves"});
    }
    r.content.floating.push_back(std::move(floating));
  }
}

}  // namespace thinspot::io
