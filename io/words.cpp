#include "io/words.hpp"

#include "io/number_text.hpp"
#include "io/trade_units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::io {

namespace {

using solver::Interval;
using solver::PartResult;
using solver::Result;

std::string micrometres(double metres, int count = 3) {
  return digits(to_um(metres), count) + " µm";
}

std::string micrometres(double metres, const Interval& band) {
  return banded(to_um(metres), {to_um(band.low), to_um(band.high)}, "µm");
}

bool uncertain(const Interval& band) { return band.high > band.low; }

/// An estimate of time, rounded up to whole minutes where it has many.
std::string time_estimate(double seconds) {
  return duration_text(seconds < 600 ? seconds : 60 * std::ceil(seconds / 60));
}

/// Time at which even the low end of the band reaches the target; thickness
/// grows evenly with time. @returns "" where that says nothing new.
std::string safe_time(const solver::TargetResult& target) {
  if (!target.time_needed || target.least_band.low <= 0) return "";
  const double seconds =
      *target.time_needed * target.least / target.least_band.low;
  if (seconds < 1.02 * *target.time_needed) return "";
  return time_estimate(seconds);
}

std::string verdict_without_target(const PartResult& part) {
  return fmt::format(
      "No target thickness is set. Thinnest spot {}, mean {}.",
      micrometres(part.thickness.value.min, part.thickness.min_band),
      micrometres(part.thickness.value.mean, part.thickness.mean_band));
}

std::string verdict_met(const Result& result) {
  const solver::TargetResult& target = *result.target;
  const Interval& band = target.least_band;
  std::string text =
      fmt::format("Target met: {} at the thinnest spot that counts, {} wanted.",
                  micrometres(target.least, band), micrometres(target.wanted));
  const double set = total_duration(result.used);
  const std::string safe = safe_time(target);
  if (uncertain(band) && band.low < target.wanted) {
    text += " Not for certain, as the range shows.";
    if (!safe.empty())
      text += fmt::format(" To be on the safe side plate {} in place of {}.",
                          safe, duration_text(set));
  } else if (target.time_needed && *target.time_needed < 0.95 * set) {
    // A saving below a twentieth is within what a bench can tell.
    text +=
        fmt::format(" About {} would do in place of {}.",
                    safe.empty() ? time_estimate(*target.time_needed) : safe,
                    duration_text(set));
  }
  return text;
}

std::string verdict_not_met(const Result& result) {
  const solver::TargetResult& target = *result.target;
  const Interval& band = target.least_band;
  std::string text = fmt::format(
      "Target not met: {} at the thinnest spot that counts, {} short of the {} "
      "wanted.",
      micrometres(target.least, band), micrometres(target.shortfall, 2),
      micrometres(target.wanted));
  if (uncertain(band) && band.high >= target.wanted)
    text += " It may still be reached, as the range shows.";
  if (!target.time_needed)
    return text +
           " Plating longer does not help: hardly any current reaches "
           "that spot.";
  const std::string safe = safe_time(target);
  text += fmt::format(
      " With nothing else changed it needs about {}{} in place of {}.",
      time_estimate(*target.time_needed),
      safe.empty() ? "" : " (" + safe + " to be on the safe side)",
      duration_text(total_duration(result.used)));
  return text;
}

std::string verdict(const Result& result, const PartResult& part) {
  if (!result.target) return verdict_without_target(part);
  return result.target->met ? verdict_met(result) : verdict_not_met(result);
}

/// Where plating differs by less than this share of the mean, no spot is worth
/// naming.
constexpr double even = 0.03;

std::string spots_sentence(std::string_view word, double extreme,
                           const Interval& band, const PartResult& part,
                           const std::vector<solver::Spot>& spots) {
  std::string text = fmt::format("{}: {}", word, micrometres(extreme, band));
  const solver::Spread& t = part.thickness.value;
  if (spots.empty() || t.max - t.min < even * t.mean)
    return text + "; the plating is even, no spot stands out.";
  text += ", " + spots.front().where;
  const int count = digits_worth(extreme, band);
  for (std::size_t k = 1; k < std::min<std::size_t>(spots.size(), 3); ++k)
    text += fmt::format("{} {}, {}", k == 1 ? ". Next:" : ";",
                        micrometres(spots[k].thickness, count), spots[k].where);
  return text + ".";
}

bool holds_voltage(const solver::CellResult& cell) {
  return cell.limited_by.starts_with("voltage");
}

/// True where the band alone reaches down to half or up to twice the value.
bool half_or_twice_within(double value, const Interval& band) {
  return band.low <= 0.5 * value || band.high >= 2 * value;
}

std::vector<std::string> meter_at_held_current(const Result& result) {
  const solver::CellResult& cell = result.cell;
  std::vector<std::string> lines;
  lines.push_back(fmt::format(
      "At {} A the supply's voltmeter should read about {}.",
      digits(cell.current), banded(cell.voltage, cell.voltage_band, "V")));
  lines.emplace_back(
      "Half of that or less: the current has a shorter way, or more metal is "
      "wetted than entered. Look for anode and part touching, a bare hook, a "
      "part too close to the anode; the part may be getting less than shown.");
  lines.emplace_back(
      "Twice that or more: something holds the current back. Look for a poor "
      "contact, a crusted or half-dry anode, a clogged bag, a solution colder "
      "or weaker than entered.");
  return lines;
}

std::vector<std::string> meter_at_held_voltage(const Result& result) {
  const solver::CellResult& cell = result.cell;
  std::vector<std::string> lines;
  lines.push_back(fmt::format(
      "{} {} V the ammeter should read about {}.",
      cell.limited_by == "voltage limit" ? "Held back by the voltage limit: at"
                                         : "At",
      digits(cell.voltage), banded(cell.current, cell.current_band, "A")));
  lines.emplace_back(
      "Half of that or less: something holds the current back, and the plating "
      "comes out that much thinner. Look for a poor contact, a crusted or "
      "half-dry anode, a clogged bag, a solution colder or weaker than "
      "entered.");
  lines.emplace_back(
      "Twice that or more: the current has a shorter way, or more metal is "
      "wetted than entered. Look for anode and part touching, a bare hook, a "
      "part too close to the anode.");
  return lines;
}

std::vector<std::string> meter(const Result& result) {
  const solver::CellResult& cell = result.cell;
  const bool held = holds_voltage(cell);
  std::vector<std::string> lines =
      held ? meter_at_held_voltage(result) : meter_at_held_current(result);
  if (held ? half_or_twice_within(cell.current, cell.current_band)
           : half_or_twice_within(cell.voltage, cell.voltage_band))
    lines.emplace_back(
        "The inputs are so uncertain that half or twice is possible with "
        "nothing wrong: measure the solution's conductivity first.");
  return lines;
}

/// The bounds are rules of thumb: well below one the resistance of the
/// solution decides where current goes, well above one that of the surface.
std::string wagner(const Result& result) {
  const double number = result.wagner_number;
  std::string text;
  if (number <= 0) {
    text =
        "Wagner number 0: polarization is left out, so shape and placing "
        "alone decide; a real solution plates a little more evenly.";
  } else {
    text =
        fmt::format("Wagner number about {} (over {} mm): ", digits(number, 2),
                    digits(to_mm(result.wagner_length), 2));
    if (number < 0.2)
      text +=
          "shape and placing rule; edges and near sides plate much heavier.";
    else if (number < 3)
      text +=
          "shape and placing count, and so does the solution's throwing "
          "power.";
    else
      text +=
          "throwing power rules; the plating is nearly even wherever the "
          "anodes stand.";
  }
  if (number > 0 && !result.used.cathode.at)
    text +=
        " Polarization is taken as constant, so another current would not "
        "change the evenness.";
  return text;
}

}  // namespace

Words words_for(const Result& result) {
  const PartResult& part = result.parts.front();
  const solver::BandedSpread& t = part.thickness;
  return {.verdict = verdict(result, part),
          .thin = spots_sentence("Thinnest", t.value.min, t.min_band, part,
                                 part.thin_spots),
          .heavy = spots_sentence("Heaviest", t.value.max, t.max_band, part,
                                  part.heavy_spots),
          .meter = meter(result),
          .wagner = wagner(result)};
}

}  // namespace thinspot::io
