#include "io/appraisal_json.hpp"

#include "io/trade_units.hpp"

#include <nlohmann/json.hpp>

namespace thinspot::io {

namespace {

using Json = nlohmann::ordered_json;
using solver::Result;

std::string text_of(const Json& json) {
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

Json band_a_dm2(double value, double plus_minus) {
  return Json::array(
      {to_a_dm2(value - plus_minus), to_a_dm2(value + plus_minus)});
}

const char* word(solver::Burn kind) {
  switch (kind) {
    case solver::Burn::dull: return "dull";
    case solver::Burn::burnt: return "burnt";
    case solver::Burn::powdery: return "powdery";
  }
  return "";
}

const char* word(solver::AnodeState state) {
  switch (state) {
    case solver::AnodeState::unknown: return "no limit known";
    case solver::AnodeState::sound: return "sound";
    case solver::AnodeState::may_passivate: return "may passivate";
    case solver::AnodeState::likely_passive: return "likely passive";
    case solver::AnodeState::idle: return "idle";
  }
  return "";
}

Json burn(const Result& r) {
  Json out = Json::array();
  for (const solver::BurnSpan& s : r.appraisal.burn.spans)
    out.push_back({{"step", s.step + 1},
                   {"part", r.parts.at(s.part).name},
                   {"kind", word(s.kind)},
                   {"face", s.face},
                   {"where", s.where},
                   {"from_mm", to_mm(s.from)},
                   {"to_mm", to_mm(s.to)},
                   {"length_mm", to_mm(s.to - s.from)},
                   {"peak_A_dm2", to_a_dm2(s.peak)},
                   {"share_of_limit", s.share}});
  return out;
}

Json burn_limit(const solver::BurnMap& map) {
  return {{"A_dm2", to_a_dm2(*map.limit)},
          {"A_dm2_band", band_a_dm2(*map.limit, map.limit_plus_minus)},
          {"from", map.given ? "target.burning_current_density"
                             : "limiting_current_density"},
          {"dull_from", map.given ? 1 : solver::kDullShare},
          {"burnt_from", map.given ? 1 : solver::kBurntShare}};
}

Json unevenness(const solver::Unevenness& u) {
  return {{"least_of_mean", u.least},
          {"largest_of_mean", u.largest},
          {"unevenness", u.spread}};
}

Json why(const solver::Why& w, const Result& r) {
  Json out = {{"unevenness", w.actual},
              {"unevenness_by_shape", w.ideal},
              {"relieved_by_polarization", w.relief}};
  if (w.half_current) out["unevenness_at_half_current"] = *w.half_current;
  if (w.twice_conductivity)
    out["unevenness_at_twice_conductivity"] = *w.twice_conductivity;
  out["parts"] = Json::array();
  for (std::size_t p = 0; p < w.parts.size(); ++p)
    out["parts"].push_back({{"name", r.parts.at(p).name},
                            {"as_plated", unevenness(w.parts[p].actual)},
                            {"by_shape", unevenness(w.parts[p].ideal)}});
  return out;
}

}  // namespace

std::string appraisal_json(const Result& r) {
  const solver::Appraisal& a = r.appraisal;
  Json out = {{"burn", burn(r)}};
  if (a.burn.limit) out["burn_limit"] = burn_limit(a.burn);
  if (a.range)
    out["working_range"] = {{"low_A_dm2", to_a_dm2(a.range->low)},
                            {"high_A_dm2", to_a_dm2(a.range->high)},
                            {"share", a.range->share},
                            {"source", a.range->source}};
  if (a.anodes.to_cathode > 0) out["anode_to_cathode"] = a.anodes.to_cathode;
  if (a.edges)
    out["edge_build"] = {{"likely", a.edges->likely},
                         {"from_um", to_um(a.edges->from)},
                         {"thickness_um", to_um(a.edges->thickness)},
                         {"where", a.edges->where}};
  if (a.why) out["why"] = why(*a.why, r);
  return text_of(out);
}

std::string anodes_json(const Result& r) {
  Json out = Json::array();
  for (std::size_t k = 0; k < r.anodes.size(); ++k) {
    const solver::AnodeResult& a = r.anodes[k];
    Json& one = out.emplace_back();
    one = {{"name", a.name},
           {"current_A", a.current},
           {"area_cm2", to_cm2(a.area)},
           {"mean_A_dm2", to_a_dm2(a.mean)},
           {"max_A_dm2", to_a_dm2(a.max)},
           {"mass_loss_g", to_grams(a.mass_loss)}};
    if (k >= r.appraisal.anodes.each.size()) continue;
    const solver::AnodeHealth& health = r.appraisal.anodes.each[k];
    one["state"] = word(health.state);
    if (!health.limit) continue;
    const solver::Quantity& limit = health.limit->density;
    one["limit_A_dm2"] = to_a_dm2(limit.value);
    one["limit_A_dm2_band"] = band_a_dm2(limit.value, limit.plus_minus);
    one["limit_source"] = health.limit->source;
  }
  return text_of(out);
}

std::string floating_json(const Result& r) {
  Json out = Json::array();
  for (std::size_t k = 0; k < r.floating.size(); ++k) {
    const solver::FloatingResult& f = r.floating[k];
    out.push_back({{"name", f.name},
                   {"through_A", f.through},
                   {"area_cm2", to_cm2(f.area)},
                   {"plating_A_dm2", to_a_dm2(f.plating)},
                   {"dissolving_A_dm2", to_a_dm2(f.dissolving)},
                   {"potential_V", f.potential}});
    if (k < r.appraisal.anodes.bipolar.size())
      out.back()["span_V"] = r.appraisal.anodes.bipolar[k].span;
  }
  return text_of(out);
}

}  // namespace thinspot::io
