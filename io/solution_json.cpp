#include "io/solution_json.hpp"

#include "io/trade_units.hpp"
#include "solver/efficiency.hpp"

#include <nlohmann/json.hpp>

namespace thinspot::io {

namespace {

using Json = nlohmann::ordered_json;
using solver::Quantity;
using solver::Solution;

Json band(const Quantity& q, double unit) {
  return Json::array(
      {(q.value - q.plus_minus) * unit, (q.value + q.plus_minus) * unit});
}

Json made_of(const Solution& s) {
  Json out = Json::array();
  for (const solver::Substance& part : s.made_of)
    out.push_back({{"name", part.name}, {"mol_l", 1e-3 * part.concentration}});
  return out;
}

Json sources(const Solution& s) {
  Json out = Json::array();
  for (const solver::Provenance& p : s.sources)
    out.push_back({{"key", p.key}, {"source", p.source}, {"sure", p.sure}});
  return out;
}

/// What is known where the library or a recipe says what is in there.
void add_contents(const Solution& s, Json& out) {
  out["entry"] = s.entry;
  out["made_of"] = made_of(s);
  out["contains"] = s.contains;
  if (!s.acidity.empty()) out["acidity"] = s.acidity;
  if (s.metal_concentration)
    out["metal_g_l"] = *s.metal_concentration * s.metal.molar_mass;
  if (s.volume) out["volume_ml"] = 1e6 * *s.volume;
  if (s.anode_limit) out["anode_limit_A_dm2"] = to_a_dm2(s.anode_limit->value);
  if (s.usual)
    out["usual_range_A_dm2"] =
        Json::array({to_a_dm2(s.usual->low), to_a_dm2(s.usual->high)});
  out["sources"] = sources(s);
}

}  // namespace

std::string solution_json(const Solution& s) {
  Json out = {{"name", s.name},
              {"metal", s.metal.name},
              {"conductivity_S_m", s.conductivity.value},
              {"conductivity_S_m_plus_minus", s.conductivity.plus_minus},
              {"conductivity_S_m_band", band(s.conductivity, 1)},
              {"efficiency", s.efficiency.value},
              {"efficiency_plus_minus", s.efficiency.plus_minus}};
  if (!s.efficiency_table.empty()) {
    out["efficiency_table"] = Json::array();
    for (const solver::EfficiencyAt& at : s.efficiency_table)
      out["efficiency_table"].push_back(
          {{"current_density_A_dm2", to_a_dm2(at.density)},
           {"efficiency", solver::efficiency_at(s, at.density)}});
  }
  if (s.limiting_current_density) {
    out["limiting_current_density_A_dm2"] =
        to_a_dm2(s.limiting_current_density->value);
    out["limiting_current_density_A_dm2_band"] =
        band(*s.limiting_current_density, 1e-2);
  }
  out["temperature_degC"] = to_deg_c(s.temperature);
  out["stirring"] = s.stirring;
  out["metal_molar_mass_g_mol"] = to_grams(s.metal.molar_mass);
  out["metal_electrons"] = s.metal.electrons;
  out["metal_density_g_cm3"] = to_g_cm3(s.metal.density);
  out["metal_source"] = s.metal.source;
  add_contents(s, out);
  return out.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace thinspot::io
