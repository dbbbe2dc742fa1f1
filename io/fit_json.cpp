#include "io/fit_json.hpp"

#include "io/keyed_quantity.hpp"
#include "io/number_text.hpp"
#include "io/program.hpp"
#include "io/quantity_words.hpp"
#include "io/reading_text.hpp"
#include "io/trade_units.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cmath>

namespace thinspot::io {

namespace {

using Json = nlohmann::ordered_json;
using solver::Fit;

double number(double value, const char* name) {
  if (!std::isfinite(value))
    throw NoResultError(
        fmt::format("the fit is unusable: {} is not a finite number", name));
  return six_digits(value);
}

Json values(const Fit& f) {
  Json list = Json::array();
  for (const solver::FittedValue& v : f.values) {
    const auto in_unit = [&](double value) {
      return number(keyed_number(v.key, value), v.key.c_str());
    };
    list.push_back({{"key", v.key},
                    {"name", quantity_in_words(v.key)},
                    {"unit", keyed_unit(v.key)},
                    {"stated", in_unit(v.stated.value)},
                    {"stated_plus_minus", in_unit(v.stated.plus_minus)},
                    {"value", in_unit(v.value)},
                    {"plus_minus", in_unit(v.plus_minus)},
                    {"interval", Json::array({in_unit(v.interval.low),
                                              in_unit(v.interval.high)})},
                    {"wanted", v.wanted},
                    {"told", v.told},
                    {"given_up", v.given_up}});
  }
  return list;
}

Json correlated(const Fit& f) {
  Json list = Json::array();
  for (const solver::Correlated& p : f.pairs)
    list.push_back({{"of", Json::array({p.of[0], p.of[1]})},
                    {"by", number(p.by, "correlated.by")}});
  return list;
}

Json readings(const Fit& f) {
  Json list = Json::array();
  for (const solver::FittedReading& r : f.readings) {
    const auto of = r.reading.of;
    const auto in_unit = [&](double value) {
      return number(read_unit(of).factor * value, "a reading");
    };
    list.push_back(
        {{"line", r.reading.line},
         {"name", reading_name(r.reading)},
         {"unit", read_unit(of).key},
         {"method", r.reading.method},
         {"read", in_unit(r.reading.value)},
         {"plus_minus", in_unit(r.reading.plus_minus)},
         {"plus_minus_source", r.reading.plus_minus_source},
         {"before", in_unit(r.before)},
         {"now", in_unit(r.now)},
         {"residual", number(r.residual, "residual")},
         {"against_others", number(r.against_others, "against_others")},
         {"outlier", r.outlier}});
  }
  return list;
}

Json untold(const Fit& f) {
  Json list = Json::array();
  for (const solver::Untold& u : f.untold) {
    Json parts = Json::array();
    for (const double part : u.parts) parts.push_back(number(part, "untold"));
    list.push_back({{"keys", u.keys}, {"parts", parts}});
  }
  return list;
}

Json forecast(const std::shared_ptr<const solver::Result>& r) {
  if (!r) return nullptr;
  Json j = {
      {"voltage_V", number(r->cell.voltage, "voltage_V")},
      {"voltage_V_band",
       Json::array({number(r->cell.voltage_band.low, "voltage_V_band"),
                    number(r->cell.voltage_band.high, "voltage_V_band")})}};
  if (!r->target) return j;
  const auto um = [](double metres) {
    return number(to_um(metres), "least_um");
  };
  j["least_um"] = um(r->target->least);
  j["least_um_band"] = Json::array(
      {um(r->target->least_band.low), um(r->target->least_band.high)});
  return j;
}

}  // namespace

std::string fit_json(const Fit& fit, const FitWords& words,
                     const std::string& fragment,
                     const std::vector<WrittenFile>& written) {
  Json out = {
      {"schema", 1},
      {"program", {{"name", program_name}, {"version", program_version()}}},
      {"title", fit.stated.title},
      {"words",
       {{"verdict", words.verdict},
        {"values", words.values},
        {"scatter", words.scatter},
        {"outliers", words.outliers},
        {"untold", words.untold},
        {"next", words.next},
        {"forecast", words.forecast}}},
      {"values", values(fit)},
      {"correlated", correlated(fit)},
      {"readings", readings(fit)},
      {"untold", untold(fit)},
      {"scatter",
       {{"squares", number(fit.squares, "scatter.squares")},
        {"freedom", fit.freedom},
        {"chance", number(fit.chance, "scatter.chance")},
        {"widened", number(fit.widened, "scatter.widened")}}},
      {"forecast",
       {{"before", forecast(fit.forecast_before)},
        {"now", forecast(fit.forecast_now)}}},
      {"fragment", fragment},
      {"meshings", fit.meshings},
      {"evaluations", fit.evaluations}};
  out["files"] = Json::array();
  for (const WrittenFile& f : written)
    out["files"].push_back({{"name", f.name}, {"bytes", f.bytes}});
  return out.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace thinspot::io
