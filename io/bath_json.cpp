#include "io/bath_json.hpp"

#include "io/bath_plan.hpp"
#include "io/number_text.hpp"
#include "io/solution_json.hpp"
#include "io/trade_units.hpp"
#include "solver/bath.hpp"

#include <nlohmann/json.hpp>

namespace thinspot::io {

namespace {

using Json = nlohmann::ordered_json;

double g(double kilograms) { return six_digits(to_grams(kilograms)); }

Json make_up(const BathPlan& plan) {
  Json out = Json::array();
  for (const MakeUp& line : plan.make_up) {
    Json& entry =
        out.emplace_back(Json{{"name", line.name}, {"mass_g", g(line.mass)}});
    if (!line.poured) continue;
    entry["poured_ml"] = six_digits(1e6 * *line.poured);
    entry["strength"] = line.strength;
  }
  return out;
}

}  // namespace

std::string bath_json(const BathPlan& plan) {
  const solver::Solution& s = plan.solution;
  Json out = {{"schema", 1}, {"solution", Json::parse(solution_json(s))}};
  if (plan.volume) out["volume_ml"] = six_digits(1e6 * *plan.volume);
  out["make_up"] = make_up(plan);
  if (plan.metal) {
    out["metal_g"] = g(*plan.metal);
    out["charge_Ah"] = six_digits(
        solver::charge_for(s.metal, *plan.metal, s.efficiency) / kHour);
  }
  out["gives_back"] = plan.gives_back;
  if (plan.run) {
    const solver::Quantity& taken = plan.run->taken;
    out["run"] = {
        {"charge_Ah", six_digits(plan.run->charge / kHour)},
        {"taken_g", g(taken.value)},
        {"taken_g_band", Json::array({g(taken.value - taken.plus_minus),
                                      g(taken.value + taken.plus_minus)})}};
  }
  if (plan.runs) out["runs_to_80_percent"] = *plan.runs;
  out["anodes"] = Json::array();
  for (const AnodeLife& a : plan.anodes)
    out["anodes"].push_back({{"name", a.name},
                             {"mass_g", g(a.mass)},
                             {"life_h", six_digits(a.seconds / kHour)}});
  if (plan.replenish)
    out["replenish_g_per_Ah"] = {{"name", plan.replenish->name},
                                 {"mass_g", g(plan.replenish->mass)}};
  return out.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace thinspot::io
