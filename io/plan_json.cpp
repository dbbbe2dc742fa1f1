#include "io/plan_json.hpp"

#include "io/number_text.hpp"
#include "io/program.hpp"
#include "io/trade_units.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cmath>

namespace thinspot::io {

namespace {

using Json = nlohmann::ordered_json;
using solver::Plan;
using solver::PlanFigures;

double number(double value, const char* name) {
  if (!std::isfinite(value))
    throw NoResultError(
        fmt::format("the plan is unusable: {} is not a finite number", name));
  return six_digits(value);
}

const char* goal_word(solver::PlanGoal goal) {
  switch (goal) {
    case solver::PlanGoal::evenness: return "evenness";
    case solver::PlanGoal::metal: return "metal";
    case solver::PlanGoal::time: break;
  }
  return "time";
}

/// 0 evenness: a place gets nothing.
Json evenness(double value) {
  return value > 0 ? Json(number(value, "evenness")) : Json(nullptr);
}

Json figures(const PlanFigures& f) {
  return {{"plating_min", number(to_minutes(f.plating), "plating_min")},
          {"bench_min", number(to_minutes(f.bench), "bench_min")},
          {"turns", f.turns},
          {"least_um", number(to_um(f.least), "least_um")},
          {"mean_um", number(to_um(f.mean), "mean_um")},
          {"largest_um", number(to_um(f.largest), "largest_um")},
          {"evenness", evenness(f.evenness)},
          {"metal_g", number(to_grams(f.metal), "metal_g")},
          {"densest_A_dm2", number(to_a_dm2(f.densest), "densest_A_dm2")},
          {"current_A", number(f.current, "current_A")},
          {"voltage_V", number(f.voltage, "voltage_V")}};
}

Json set_up(const solver::SetUp& s, const std::string& file,
            const std::vector<std::string>& changes) {
  return {{"name", s.name},
          {"file", file},
          {"changes", changes},
          {"figures", figures(s.figures)},
          {"breaks", s.figures.breaks}};
}

Json set_ups(const Plan& plan, const PlanWords& words) {
  Json list = Json::array();
  for (std::size_t k = 0; k < plan.set_ups.size(); ++k)
    list.push_back(
        set_up(plan.set_ups[k], planned_file(k), words.changes.at(k)));
  return list;
}

Json trade_off(const Plan& plan) {
  Json list = Json::array();
  for (const solver::TradeOff& t : plan.trade_off)
    list.push_back(
        {{"bench_min", number(to_minutes(t.bench), "trade_off.bench_min")},
         {"evenness", evenness(t.evenness)},
         {"current_A", number(t.current, "trade_off.current_A")},
         {"turns", t.turns},
         {"name", t.name}});
  return list;
}

Json levers(const Plan& plan) {
  Json list = Json::array();
  for (const solver::Lever& l : plan.levers)
    list.push_back({{"key", l.key},
                    {"words", l.words},
                    {"change_um", number(to_um(l.change), "levers.change_um")},
                    {"share", number(l.share, "levers.share")}});
  return list;
}

Json out_of_reach(const Plan& plan) {
  if (!plan.out_of_reach) return nullptr;
  const solver::OutOfReach& o = *plan.out_of_reach;
  return {{"what", o.what}, {"key", o.key}, {"relaxed", o.relaxed}};
}

Json build(const Plan& plan, const PlanWords& words) {
  const auto& best = plan.set_ups.front().result;
  const solver::Case& drawn = plan.drawn.content;
  return {{"schema", 1},
          {"program", {{"name", program_name}, {"version", program_version()}}},
          {"title", drawn.title},
          {"goal", goal_word(drawn.plan.goal)},
          {"words",
           {{"verdict", words.verdict},
            {"gain", words.gain},
            {"first", words.first},
            {"out_of_reach", words.out_of_reach}}},
          {"drawn", set_up(plan.drawn, "", {})},
          {"set_ups", set_ups(plan, words)},
          {"trade_off", trade_off(plan)},
          {"levers", levers(plan)},
          {"out_of_reach", out_of_reach(plan)},
          {"varied", plan.varied},
          {"layouts", plan.layouts},
          {"candidates", plan.candidates},
          {"cautions", best ? best->cautions : std::vector<std::string>{}}};
}

std::string text_of(const Json& plan) {
  return plan.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace

std::string planned_file(std::size_t set_up) {
  return set_up == 0 ? "planned.toml"
                     : fmt::format("planned_{}.toml", set_up + 1);
}

std::string plan_json(const Plan& plan, const PlanWords& words) {
  return text_of(build(plan, words));
}

std::string plan_json(const Plan& plan, const PlanWords& words,
                      const std::vector<WrittenFile>& files) {
  Json out = build(plan, words);
  out["files"] = Json::array();
  for (const WrittenFile& f : files)
    out["files"].push_back({{"name", f.name}, {"bytes", f.bytes}});
  out["time_s"] = number(plan.seconds, "time_s");
  return text_of(out);
}

}  // namespace thinspot::io
