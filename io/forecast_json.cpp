#include "io/forecast_json.hpp"

#include "io/quantity_words.hpp"
#include "io/trade_units.hpp"
#include "solver/bench_measuring.hpp"

#include <nlohmann/json.hpp>

#include <cmath>

namespace thinspot::io {

namespace {

using Json = nlohmann::ordered_json;
using solver::Doubt;
using solver::Forecast;

const char* method_word(Forecast::Method method) {
  switch (method) {
    case Forecast::Method::none: return "none";
    case Forecast::Method::linear: return "linear";
    case Forecast::Method::draws: return "draws";
  }
  return "";
}

Json band_um(const solver::Interval& band) {
  return Json::array({to_um(band.low), to_um(band.high)});
}

Json input(const Doubt::Input& i) {
  Json out = {{"key", i.key}, {"words", quantity_in_words(i.key)}};
  if (i.layer > 0) out["layer"] = i.layer;
  if (solver::bench_measuring(i.key).absolute)
    out["plus_minus_V"] = i.stated.plus_minus;
  else if (i.stated.value != 0)
    out["plus_minus_share"] = i.stated.plus_minus / std::abs(i.stated.value);
  out["evenly"] = i.stated.evenly;
  out["measure"] = solver::bench_measuring(i.key).how;
  return out;
}

}  // namespace

std::string forecast_json(const Forecast& f) {
  Json out = {{"method", method_word(f.method)},
              {"draws", f.draws},
              {"why", f.why},
              {"least_um", to_um(f.least)},
              {"least_um_band", band_um(f.band)},
              {"doubts", Json::array()}};
  for (const Doubt& doubt : f.doubts) {
    Json inputs = Json::array();
    for (const Doubt::Input& i : doubt.inputs) inputs.push_back(input(i));
    out["doubts"].push_back({{"inputs", std::move(inputs)},
                             {"share", doubt.share},
                             {"left_by_measuring", doubt.left},
                             {"then_um_band", band_um(doubt.then)}});
  }
  return out.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace thinspot::io
