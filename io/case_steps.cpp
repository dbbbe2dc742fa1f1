#include "io/case_reading.hpp"
#include "io/trade_units.hpp"
#include "solver/step_case.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io {

namespace {

/// Supply keys that a step may change: leads stay what they are.
std::vector<KeyInfo> settings() {
  std::vector<KeyInfo> keys = table_info("supply").keys;
  std::erase_if(
      keys, [](const KeyInfo& key) { return key.name == "lead_resistance"; });
  return keys;
}

constexpr Limits kDwell{Dimension::duration, "1 ms", "3650 day"};
constexpr Limits kRate{Dimension::rate, "-1000 rpm", "1000 rpm"};
constexpr double kMostPositions = 72;

std::vector<KeyInfo> turning_keys() {
  return {{"positions", Form::whole},
          {"dwell", Form::value, kDwell},
          {"rate", Form::value, kRate}};
}

template <class Things>
std::vector<std::string> names_of(const Things& things) {
  std::vector<std::string> names;
  for (const auto& thing : things) names.push_back(thing.name);
  return names;
}

/// Names of one list that stand in the table, known ones only.
void read_names(TableReader& t, std::string_view key,
                const std::vector<std::string>& known,
                std::vector<std::string>& names) {
  const auto given = t.texts(key);
  if (!given) return;
  names.clear();
  for (const std::string& name : *given)
    if (std::find(known.begin(), known.end(), name) == known.end())
      t.wrong(key, fmt::format("there is no \"{}\"", name),
              known.empty()
                  ? "leave it out"
                  : fmt::format("one or more of: {}", fmt::join(known, ", ")));
    else if (std::find(names.begin(), names.end(), name) == names.end())
      names.push_back(name);
  std::sort(names.begin(), names.end());
}

void read_motion(CaseReading& r, TableReader& t, mesh::Motion& motion) {
  const mesh::Cut cut = r.content.section.cut;
  if (const auto flip = t.flag("flip")) motion.flip = *flip;
  if (const auto turn = t.value("turn")) motion.turn = *turn;
  if (t.has("flip") && motion.flip && cut != mesh::Cut::side)
    t.wrong("flip", "is half a turn about an upright wire",
            "view = \"side\", or turn = \"180 deg\" in a plan view");
  if (t.has("turn") && motion.turn != 0 && cut == mesh::Cut::axisymmetric)
    t.wrong("turn", "has no use about an axis", "leave it out");
}

void read_turning(CaseReading& r, TableReader& step, solver::Step& content) {
  TableReader t = step.table("turning", turning_keys());
  if (!t.present()) return;
  const auto positions = t.whole("positions");
  const auto dwell = t.value("dwell"), rate = t.value("rate");
  if (t.has("positions") == t.has("rate")) {
    step.wrong("turning", "takes either positions or a rate",
               "turning = { positions = 4, dwell = \"30 s\" } or "
               "turning = { rate = \"6 rpm\" }");
    return;
  }
  if (positions && (*positions < 1 || *positions > kMostPositions))
    t.wrong("positions", fmt::format("is {:g}", *positions),
            fmt::format("1 .. {:g}; 1 ends the turning", kMostPositions));
  if (dwell && !t.has("positions"))
    t.wrong("dwell", "is for positions", "leave it out");
  if (rate && *rate == 0)
    t.wrong("rate", "is no turning", "positions = 1 ends it");
  if (r.content.section.cut == mesh::Cut::axisymmetric)
    step.wrong("turning", "has no use about an axis", "leave it out");
  content.turning.reset();
  if (rate) content.turning = solver::Turning{0, 0, *rate};
  if (positions && *positions > 1 && *positions <= kMostPositions)
    content.turning =
        solver::Turning{static_cast<int>(*positions), dwell.value_or(0), 0};
  if (content.turning && r.content.growth)
    step.wrong("turning", "does not go with growth = true",
               "a [[step]] for each position, turn = \"90 deg\", or growth = "
               "false");
}

void read_anodes_of_step(CaseReading& r, TableReader& t, solver::Step& step) {
  const std::vector<std::string> anodes = names_of(r.content.anodes);
  read_names(t, "off", anodes, step.off);
  read_names(t, "lifted", anodes, step.lifted);
  for (const std::string& name : step.lifted)
    if (std::find(step.off.begin(), step.off.end(), name) != step.off.end()) {
      t.wrong(t.has("lifted") ? "lifted" : "off",
              fmt::format("\"{}\" is in both lists", name),
              "off stays in the tank, lifted does not");
      return;
    }
  if (!anodes.empty() && step.off.size() + step.lifted.size() >= anodes.size())
    t.wrong(t.has("lifted") ? "lifted" : "off", "leaves no anode at work",
            "one less");
}

/// What a temperature makes of the conductivity is an assumption.
void assume_conductivity(CaseReading& r, std::size_t step) {
  const solver::Quantity& a = r.content.solution.conductivity_per_kelvin;
  const solver::Solution there = solver::solution_in(r.content, step);
  r.content.assumed.push_back(
      {fmt::format("step.{}.conductivity", step + 1),
       fmt::format(
           "{:.3g} S/m at {:.3g} degC, by {:.2g} % +- {:.2g} % a kelvin",
           there.conductivity.value, to_deg_c(there.temperature), 100 * a.value,
           100 * a.plus_minus),
       "left out beside a temperature; salts grow by some 2 % a kelvin, strong "
       "acids by 1 to 1.5 %, from memory: measure it where the step lies more "
       "than 20 K off"});
}

}  // namespace

void read_steps(CaseReading& r) {
  solver::Step step;
  for (TableReader& t : open_tables(r, "step")) {
    if (const auto duration = t.quantity("duration"))
      step.duration = *duration;
    else if (r.content.steps.empty() && !t.has("duration"))
      t.missing("duration", "duration = \"20 min\"");
    read_motion(r, t, step.motion);
    read_turning(r, t, step);
    read_anodes_of_step(r, t, step);
    if (t.has("clips")) {
      step.clips.emplace();
      read_names(t, "clips", names_of(r.content.clips), *step.clips);
    }
    TableReader supply = t.table("supply", settings());
    if (supply.present()) {
      if (!step.supply) step.supply = r.content.supply;
      refuse_adapter(supply, "[supply]");
      read_settings(supply, *step.supply);
    }
    read_rectifiers_of_step(r, t, step);
    step.temperature = t.value("temperature");
    step.conductivity = t.quantity("conductivity");
    r.content.steps.push_back(step);
    if (step.temperature && !t.has("conductivity"))
      assume_conductivity(r, r.content.steps.size() - 1);
  }
}

}  // namespace thinspot::io
