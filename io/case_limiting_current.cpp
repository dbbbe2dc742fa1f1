#include "io/case_reading.hpp"
#include "io/case_solution.hpp"
#include "io/trade_units.hpp"
#include "solver/limiting_current.hpp"

#include <fmt/format.h>

#include <map>

namespace thinspot::io {

namespace {

/// The ion that a metal plates from; in a cyanide or alkaline solution it is
/// bound in another, and nothing is said.
std::string cation_of(const solver::Solution& s) {
  static const std::map<std::string, std::string> ions{
      {"copper", "Cu"}, {"nickel", "Ni"}, {"zinc", "Zn"},  {"tin", "Sn"},
      {"silver", "Ag"}, {"iron", "Fe"},   {"cobalt", "Co"}};
  for (const std::string& tag : s.contains)
    if (tag == "cyanide" || tag == "alkali") return "";
  const auto found = ions.find(s.metal.name);
  return found == ions.end() ? "" : found->second;
}

/// How high the part stands, where the section shows it.
std::optional<double> height_of_part(const CaseReading& r) {
  const solver::Case& c = r.content;
  if (c.section.cut == mesh::Cut::plan) return c.depth;
  for (const mesh::Solid& s : c.section.solids) {
    if (s.role != mesh::Role::part) continue;
    try {
      const mesh::Box box = mesh::bounding_box(mesh::moved(
          mesh::outline_at_origin(s, c.section.cut), s.turn, {0, 0}));
      return box.high.y() - box.low.y();
    } catch (const InputError&) {
      return std::nullopt;  // noted where the part is read
    }
  }
  return std::nullopt;
}

std::string why(const solver::IonSupply& ions) {
  if (ions.stirring == "still" && ions.height)
    return fmt::format(
        "natural convection at metal {:.2g} mm high (Wilke, Eisenberg and "
        "Tobias 1953, from memory)",
        to_mm(*ions.height));
  const solver::Quantity layer = solver::diffusion_layer(ions.stirring);
  return fmt::format("diffusion layer of {:.2g} to {:.2g} mm, from memory",
                     to_mm(layer.value - layer.plus_minus),
                     to_mm(layer.value + layer.plus_minus));
}

}  // namespace

void derive_limiting_current(CaseReading& r) {
  solver::Solution& s = r.content.solution;
  if (s.limiting_current_density || !s.metal_concentration) return;
  const solver::IonSupply ions{cation_of(s),           s.metal.electrons,
                               *s.metal_concentration, r.carried_by_metal,
                               s.temperature,          s.stirring,
                               height_of_part(r)};
  s.limiting_current_density = solver::limiting_current(ions);
  if (!s.limiting_current_density) return;
  const solver::Quantity& limit = *s.limiting_current_density;
  const std::string source = fmt::format(
      "{:.2g} g/l of metal, {}, stirring \"{}\"",
      *s.metal_concentration * s.metal.molar_mass, why(ions), s.stirring);
  note_source(s, "limiting_current_density", source, "rough");
  r.content.assumed.push_back(
      {"solution.limiting_current_density",
       fmt::format("{:.2g} A/dm2 +- {:.0f} %", to_a_dm2(limit.value),
                   100 * limit.plus_minus / limit.value),
       "left out; " + source});
}

}  // namespace thinspot::io
