#include "io/target_json.hpp"

#include "io/trade_units.hpp"

#include <nlohmann/json.hpp>

namespace thinspot::io {

namespace {

using Json = nlohmann::ordered_json;

Json band_um(const solver::Interval& band) {
  return Json::array({to_um(band.low), to_um(band.high)});
}

}  // namespace

std::string target_json(const solver::TargetResult& t,
                        const solver::Target& asked) {
  Json out = {{"wanted_um", to_um(t.wanted)},
              {"met", t.met},
              {"least_um", to_um(t.least)},
              {"least_um_band", band_um(t.least_band)},
              {"least_um_mesh_error", to_um(t.least_mesh_error)},
              {"shortfall_um", to_um(t.shortfall)},
              {"time_needed_min", nullptr}};
  if (t.time_needed) out["time_needed_min"] = to_minutes(*t.time_needed);
  if (t.chance) out["chance"] = *t.chance;
  if (!asked.standard.empty()) {
    out["standard"] = asked.standard;
    out["class"] = asked.thickness_class;
    out["class_source"] = asked.thickness_source;
  }
  return out.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace thinspot::io
