#include "io/verdict.hpp"

#include "io/copies.hpp"
#include "io/forecast_words.hpp"
#include "io/number_text.hpp"

#include <fmt/format.h>

namespace thinspot::io {

namespace {

using solver::Interval;
using solver::PartResult;
using solver::Result;

bool uncertain(const Interval& band) { return band.high > band.low; }

/// Time at which even the low end of the band reaches the target; thickness
/// grows evenly with time. @returns "" where that says nothing new.
std::string safe_time(const solver::TargetResult& target) {
  if (!target.time_needed || target.least_band.low <= 0) return "";
  const double seconds =
      *target.time_needed * target.least / target.least_band.low;
  if (seconds < 1.02 * *target.time_needed) return "";
  return time_estimate(seconds);
}

/// Whose class the thickness wanted is; "" where nobody's.
std::string asked_by(const Result& result) {
  const solver::Target& t = result.used.target;
  if (t.standard.empty()) return "";
  const bool seen = t.thickness_source.find("from memory") == std::string::npos;
  return fmt::format(" (asked for by {}, {}{})", t.standard, t.thickness_class,
                     seen ? "" : ", from memory");
}

/// "; chance 83 %".
std::string with_chance(const solver::TargetResult& target) {
  return target.chance ? "; chance " + chance_text(*target.chance) : "";
}

std::string of_copies(const Result& result) {
  if (result.parts.size() < 2) return "";
  return fmt::format(" of all {} copies", result.parts.size());
}

std::string verdict_without_target(const Result& result) {
  const PartResult& part = result.parts[thinnest_spot_on(result)];
  const Banded mean = mean_thickness(result);
  return fmt::format(
      "No target thickness is set. Thinnest spot{} {}, mean {}.",
      of_copies(result),
      micrometres(part.thickness.value.min, part.thickness.min_band),
      micrometres(mean.value, mean.band));
}

std::string verdict_met(const Result& result) {
  const solver::TargetResult& target = *result.target;
  const Interval& band = target.least_band;
  std::string text = fmt::format(
      "Target met: {} at the thinnest spot that counts{}, {} wanted{}{}.",
      micrometres(target.least, band), of_copies(result),
      micrometres(target.wanted), asked_by(result), with_chance(target));
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
      "Target not met: {} at the thinnest spot that counts{}, {} short of the "
      "{} wanted{}{}.",
      micrometres(target.least, band), of_copies(result),
      micrometres(target.shortfall, 2), micrometres(target.wanted),
      asked_by(result), with_chance(target));
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

}  // namespace

std::string verdict(const Result& result) {
  if (!result.target) return verdict_without_target(result);
  return result.target->met ? verdict_met(result) : verdict_not_met(result);
}

}  // namespace thinspot::io
