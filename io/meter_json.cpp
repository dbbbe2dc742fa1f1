#include "io/meter_json.hpp"

#include "io/adapter_words.hpp"
#include "io/trade_units.hpp"
#include "solver/adapter.hpp"

#include <nlohmann/json.hpp>

namespace thinspot::io {

namespace {

using Json = nlohmann::ordered_json;
using solver::Interval;
using solver::Result;

Json pair(const Interval& band) { return Json::array({band.low, band.high}); }

Json resistor(const solver::Adapter& adapter, double current, double voltage,
              const Interval& band) {
  const auto r =
      solver::series_resistor(adapter.voltage, current, voltage, band);
  if (!r) return nullptr;
  return {{"exact_ohm", r->exact},
          {"ohm", r->resistance},
          {"current_A", r->current},
          {"current_A_band", pair(r->current_band)},
          {"heat_W", r->heat},
          {"rating_W", r->rating},
          {"short_circuit_A", r->short_circuit}};
}

Json wire(double current) {
  const auto w = solver::wire_gauge(current, kLeadLength, kMostDrop);
  if (!w) return nullptr;
  return {{"area_mm2", 1e6 * w->area},
          {"awg", w->awg},
          {"length_m", kLeadLength},
          {"drop_V", w->drop}};
}

/// @param c  what one supply shows: a cell or a rectifier
template <class Shown>
Json meter_of(const Shown& c, const solver::Supply& supply) {
  Json out;
  if (c.limited_by.starts_with("voltage")) {
    out = {{"expected_A", c.current},
           {"expected_A_band", pair(c.current_band)},
           {"half_A", 0.5 * c.current},
           {"twice_A", 2 * c.current}};
  } else {
    out = {{"expected_V", c.voltage},
           {"expected_V_band", pair(c.voltage_band)},
           {"half_V", 0.5 * c.voltage},
           {"twice_V", 2 * c.voltage}};
  }
  if (supply.adapter) {
    out["adapter_V"] = supply.adapter->voltage;
    if (supply.adapter->current) out["adapter_A"] = *supply.adapter->current;
    out["series_resistor"] =
        resistor(*supply.adapter, c.current, c.voltage, c.voltage_band);
  }
  out["wire"] = wire(c.current);
  return out;
}

Json meter(const Result& r) {
  if (r.cell.rectifiers.empty()) return meter_of(r.cell, r.used.supply);
  Json list = Json::array();
  for (std::size_t k = 0; k < r.cell.rectifiers.size(); ++k) {
    Json one = meter_of(r.cell.rectifiers[k], r.used.rectifiers.at(k).supply);
    one["name"] = r.cell.rectifiers[k].name;
    list.push_back(std::move(one));
  }
  return {{"rectifiers", std::move(list)}};
}

Json gas(const solver::Gas& g) {
  return {{"hydrogen_litre", 1e3 * g.hydrogen},
          {"oxygen_litre_at_most", 1e3 * g.oxygen},
          {"chlorine_litre_at_most", 1e3 * g.chlorine},
          {"at", "25 degC, 1 atm, dry"}};
}

Json throwing(const std::optional<solver::ThrowingPower>& t) {
  if (!t) return nullptr;
  return {{"mean_A_dm2", to_a_dm2(t->density)},
          {"distance_ratio", solver::kDistanceRatio},
          {"wagner_number", t->wagner},
          {"mass_ratio", t->mass_ratio},
          {"mass_ratio_band", pair(t->mass_ratio_band)},
          {"field_percent", t->field},
          {"field_percent_band", pair(t->field_band)},
          {"haring_blum_percent", t->haring_blum},
          {"haring_blum_percent_band", pair(t->haring_blum_band)}};
}

}  // namespace

std::string meter_json(const Result& r) {
  const Json out = {{"meter", meter(r)},
                    {"gas", gas(r.appraisal.gas)},
                    {"throwing_power", throwing(r.appraisal.throwing)}};
  return out.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace thinspot::io
