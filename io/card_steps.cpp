#include "io/card_steps.hpp"

#include "io/number_text.hpp"
#include "io/phrases.hpp"
#include "io/trade_units.hpp"
#include "mesh/digits.hpp"
#include "solver/adapter.hpp"
#include "solver/step_case.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::io {

namespace {

using solver::Case;
using solver::CellResult;
using solver::Result;
using solver::StepResult;
using solver::Supply;
using Names = std::vector<std::string>;

/// Where nothing else is said, a turn below this is none [deg].
constexpr double kNoTurn = 1e-6;

/// From here on a lead's resistance is one that somebody put there [ohm].
constexpr double kWorthSaying = 0.5;

/// Those of `all` that are not among `some`.
Names without(const Names& all, const Names& some) {
  Names left;
  for (const std::string& name : all)
    if (std::find(some.begin(), some.end(), name) == some.end())
      left.push_back(name);
  return left;
}

void say(Names& said, const Names& names, const char* before,
         const char* behind) {
  if (!names.empty())
    said.push_back(
        fmt::format("{}{}{}", before, fmt::join(names, " and "), behind));
}

Names clips_on(const Case& c, std::size_t step) {
  if (c.steps[step].clips) return *c.steps[step].clips;
  Names all;
  for (const solver::Clip& clip : c.clips) all.push_back(clip.name);
  return all;
}

/// Counter-clockwise as one sees it, between -180 and 180 [deg].
double seen_turn(const mesh::Motion& from, const mesh::Motion& to) {
  const double turn = to_degrees(to.turn - from.turn);
  const double short_way = std::remainder(turn, 360.0);
  return to.flip ? -short_way : short_way;
}

void say_motion(Names& said, const mesh::Motion& from, const mesh::Motion& to) {
  if (from.flip != to.flip)
    said.emplace_back("flip the part, left and right change places");
  const double turn = seen_turn(from, to);
  if (std::abs(turn) > kNoTurn)
    said.push_back(fmt::format("turn the part by {}° {}",
                               digits(std::abs(turn)),
                               turn > 0 ? "counter-clockwise" : "clockwise"));
}

/// What hands do before a step, the supply being off.
Names changes(const Case& c, const Result& own, std::size_t k, bool drawn) {
  Names said;
  const StepResult& now = own.steps[k];
  const Names all = clips_on(c, k);
  if (k == 0) {
    if (!drawn) say_motion(said, {}, now.motion);
    say(said, now.off, "leave ", " without current");
    say(said, now.lifted, "leave ", " out of the tank");
    Names every;
    for (const solver::Clip& clip : c.clips) every.push_back(clip.name);
    say(said, without(every, all), "leave off the clip ", "");
    return said;
  }
  const StepResult& before = own.steps[k - 1];
  const Names clips = clips_on(c, k - 1);
  say_motion(said, before.motion, now.motion);
  say(said, without(all, clips), "put on the clip ", "");
  say(said, without(clips, all), "take off the clip ", "");
  say(said, without(now.lifted, before.lifted), "take ", " out of the tank");
  say(said, without(before.lifted, now.lifted), "put ", " back into the tank");
  say(said, without(without(now.off, before.off), before.lifted),
      "take the lead off ", "");
  say(said, without(without(before.off, now.off), now.lifted),
      "put the lead back on ", "");
  if (now.temperature && before.temperature &&
      *now.temperature != *before.temperature)
    said.push_back(fmt::format("bring the solution to {} °C",
                               digits(to_deg_c(*now.temperature))));
  return said;
}

/// Two digits where no band tells how sure it is.
std::string expected(double value, const solver::Interval& band,
                     const std::string& unit) {
  return band.high > band.low ? banded(value, band, unit)
                              : digits(value, 2) + " " + unit;
}

std::string limit_of(const Supply& supply) {
  return supply.voltage_limit
             ? " (limit " + digits(*supply.voltage_limit) + " V)"
             : "";
}

/// One supply, or one of several rectifiers.
struct Dial {
  double current = 0, voltage = 0;
  solver::Interval current_band, voltage_band;
  std::string limited_by;
};

std::string setting(const Dial& d, const Supply& supply) {
  const std::string amps = expected(d.current, d.current_band, "A");
  if (supply.adapter) {
    const auto r = solver::series_resistor(supply.adapter->voltage, d.current,
                                           d.voltage, d.voltage_band);
    if (r)
      return fmt::format("the {} V adapter with {} ohm in series, expect {}",
                         digits(supply.adapter->voltage), digits(r->resistance),
                         banded(r->current, r->current_band, "A"));
  }
  const double lead = supply.lead_resistance.value;
  const std::string in_lead =
      lead >= kWorthSaying ? fmt::format(" ({} ohm in the lead)", digits(lead))
                           : "";
  if (d.limited_by == "voltage")
    return fmt::format("supply at {} V{}, expect {}", digits(d.voltage),
                       in_lead, amps);
  if (d.limited_by == "voltage limit")
    return fmt::format("set the limit of {} V, which holds, expect {}",
                       digits(d.voltage), amps);
  return fmt::format("set {} A{}, expect {}", digits(d.current),
                     limit_of(supply),
                     expected(d.voltage, d.voltage_band, "V"));
}

std::string settings(const CellResult& cell, const Case& step) {
  if (cell.rectifiers.empty())
    return setting({cell.current, cell.voltage, cell.current_band,
                    cell.voltage_band, cell.limited_by},
                   step.supply);
  Names each;
  for (std::size_t r = 0; r < cell.rectifiers.size(); ++r) {
    const solver::RectifierResult& one = cell.rectifiers[r];
    const bool idle = one.limited_by == "idle" || one.limited_by == "blocked";
    each.push_back(
        one.name + ": " +
        (idle ? "gives nothing"
              : setting({one.current, one.voltage, one.current_band,
                         one.voltage_band, one.limited_by},
                        r < step.rectifiers.size() ? step.rectifiers[r].supply
                                                   : Supply{})));
  }
  return fmt::format("{}", fmt::join(each, "; "));
}

std::string turning_of(const StepResult& step) {
  if (!step.turning) return "";
  if (step.turning->positions == 0)
    return fmt::format(", the part turning at {} rpm",
                       digits(60 * step.turning->rate));
  return fmt::format(
      ", in {} positions evenly round{}", step.turning->positions,
      step.turning->dwell > 0
          ? ", " + duration_text(step.turning->dwell) + " at each, over again"
          : "");
}

void add_steps(const Result& own, const std::string& tank, bool drawn,
               std::vector<std::string>& lines) {
  const std::size_t count = std::min(own.steps.size(), own.used.steps.size());
  for (std::size_t k = 0; k < count; ++k) {
    const StepResult& step = own.steps[k];
    const std::string by_hand =
        fmt::format("{}", fmt::join(changes(own.used, own, k, drawn), "; "));
    std::string text = k == 0 ? tank : "";
    if (!by_hand.empty())
      text += (k > 0 ? "Supply off; " + by_hand : capital(by_hand)) + ". ";
    text += fmt::format(
        "{}; {}{}.",
        capital(settings(step.cell, solver::case_of_step(own.used, k))),
        duration_text(step.duration), turning_of(step));
    lines.push_back(std::move(text));
  }
}

}  // namespace

std::vector<std::string> card_steps(const Result& result) {
  std::vector<std::string> lines;
  if (result.layers.empty()) {
    add_steps(result, "", true, lines);
    return lines;
  }
  for (std::size_t l = 0; l < result.layers.size(); ++l) {
    const solver::LayerResult& layer = result.layers[l];
    add_steps(layer.own,
              fmt::format("{}nto the {} tank. ", l == 0 ? "I" : "Rinse, i",
                          layer.name),
              l == 0, lines);
  }
  return lines;
}

}  // namespace thinspot::io
