#include "io/forecast_words.hpp"

#include "io/phrases.hpp"
#include "io/quantity_words.hpp"
#include "io/trade_units.hpp"
#include "mesh/digits.hpp"
#include "solver/bench_measuring.hpp"
#include "solver/correlation.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::io {

namespace {

using solver::Doubt;
using solver::Forecast;
using solver::Interval;
using solver::Result;

/// Shares of the doubt below this are not worth a word.
constexpr double kLeastShare = 0.01;
/// And on the one line of the terminal below this.
constexpr double kLeastNamed = 0.05;
constexpr std::size_t kMostOnALine = 3;
/// A measurement that leaves more than this of a half width is not worth it.
constexpr double kMostLeft = 0.9;
/// A band narrower than this share of its value needs no measurement.
constexpr double kNarrow = 0.02;
/// What leaves more of it than this is not told as a gain.
constexpr double kHardlyNarrower = 0.95;

double width(const Interval& band) { return band.high - band.low; }

std::string percent(double share) {
  return digits(100 * share, share < 0.1 ? 1 : 2) + " %";
}

/// "9.2 to 10.1 µm", to a tenth of its width or finer.
std::string span_um(const Interval& band) {
  const double wide = to_um(width(band));
  const int decimals =
      wide > 0
          ? std::clamp(1 - static_cast<int>(std::floor(std::log10(wide))), 0, 3)
          : 2;
  return fmt::format("{:.{}f} to {:.{}f} µm", to_um(band.low), decimals,
                     to_um(band.high), decimals);
}

/// "± 15 %", "± 10 mV"; of what may well be nothing "near nothing".
std::string half_width_text(const std::string& key, double half_width,
                            double value) {
  if (solver::bench_measuring(key).absolute)
    return fmt::format("\u00B1 {} mV", digits(1e3 * half_width, 2));
  if (value == 0) return "near nothing";
  return fmt::format("\u00B1 {} %",
                     digits(100 * half_width / std::abs(value), 2));
}

std::string stated_text(const Doubt::Input& input) {
  return half_width_text(input.key, input.stated.plus_minus,
                         input.stated.value) +
         (input.stated.evenly ? " at most" : "");
}

std::string name_of(const Doubt::Input& input) {
  const std::string name = quantity_in_words(input.key);
  return input.layer > 0 ? fmt::format("{} (layer {})", name, input.layer)
                         : name;
}

std::string names_of(const Doubt& doubt) {
  std::vector<std::string> names;
  for (const Doubt::Input& input : doubt.inputs)
    names.push_back(name_of(input));
  return with_and(names);
}

/// The same without what goes without saying: a line is short.
std::string short_name(const Doubt::Input& input) {
  std::string name = name_of(input);
  for (const char* known : {" of the solution", " of the supply"})
    if (const auto at = name.find(known); at != std::string::npos)
      name.erase(at, std::string_view(known).size());
  constexpr std::string_view kCathode = " of the cathode";
  if (const auto at = name.find(kCathode); at != std::string::npos)
    name = "cathode " + name.erase(at, kCathode.size());
  return name;
}

std::string short_names(const Doubt& doubt) {
  std::string text;
  for (const Doubt::Input& input : doubt.inputs)
    text += (text.empty() ? "" : " with ") + short_name(input);
  return text;
}

/// Whether there is anything to be surer of.
bool is_doubtful(const Forecast& f) {
  return f.method != Forecast::Method::none && !f.doubts.empty() &&
         f.doubts.front().share > 0 && width(f.band) > kNarrow * f.least;
}

/// The one that leaves the narrowest band; nullptr where none helps.
const Doubt* best_to_measure(const Forecast& f) {
  const auto best = std::min_element(f.doubts.begin(), f.doubts.end(),
                                     [](const Doubt& a, const Doubt& b) {
                                       return width(a.then) < width(b.then);
                                     });
  const bool helps = best != f.doubts.end() && best->left < kMostLeft &&
                     width(best->then) <= kHardlyNarrower * width(f.band);
  return helps ? &*best : nullptr;
}

std::string doubt_words(const Doubt& doubt, const Forecast& f) {
  const bool several = doubt.inputs.size() > 1;
  std::string stated, measured;
  for (const Doubt::Input& input : doubt.inputs) {
    const double to = solver::measured_to(input.key, input.stated);
    stated += (stated.empty() ? "" : ", ") + stated_text(input);
    measured += (measured.empty() ? "" : ", ") +
                half_width_text(input.key, to, input.stated.value);
  }
  std::string text =
      fmt::format("{} ({}){} make{} {} of the doubt", names_of(doubt), stated,
                  several ? ", whose errors go together," : "",
                  several ? "" : "s", percent(doubt.share));
  if (doubt.left >= kMostLeft)
    return text + ", and a bench can hardly tell more.";
  if (width(doubt.then) > kHardlyNarrower * width(f.band))
    return text + "; measuring it alone would hardly narrow the band.";
  return text +
         fmt::format(
             ": measured to {} ({}), the thinnest spot that counts would be "
             "known to {} in place of {}.",
             measured, solver::bench_measuring(doubt.inputs.front().key).how,
             span_um(doubt.then), span_um(f.band));
}

}  // namespace

std::string chance_text(double chance) {
  if (chance < 0.01) return "under 1 %";
  if (chance > 0.99) return "over 99 %";
  return fmt::format("{:.0f} %", 100 * chance);
}

std::string sure_words(const Result& result) {
  const Forecast& f = result.forecast;
  const Doubt* best = is_doubtful(f) ? best_to_measure(f) : nullptr;
  if (!best) return "";
  std::string doubts;
  for (std::size_t k = 0; k < std::min(kMostOnALine, f.doubts.size()); ++k)
    if (f.doubts[k].share >= kLeastNamed)
      doubts += (doubts.empty() ? "" : ", ") + short_names(f.doubts[k]) + " " +
                percent(f.doubts[k].share);
  return fmt::format(
      "{}; {} measured: {}.", doubts,
      best == &f.doubts.front() ? "the first" : short_names(*best),
      span_um(best->then));
}

std::vector<std::string> measure_words(const Result& result) {
  const Forecast& f = result.forecast;
  std::vector<std::string> lines;
  if (!is_doubtful(f)) return lines;
  for (const Doubt& doubt : f.doubts)
    if (doubt.share >= kLeastShare) lines.push_back(doubt_words(doubt, f));
  return lines;
}

std::string along_words(const Result& result) {
  double least = 0, most = 0;
  bool any = false;
  for (const solver::PartResult& part : result.parts)
    for (const solver::SurfacePoint& p : part.surface) {
      if (!p.judged || width(p.thickness_band) <= 0) continue;
      // Where next to nothing is deposited a share says nothing.
      if (p.thickness < 0.01 * part.thickness.value.mean) continue;
      const double half = 0.5 * width(p.thickness_band) / p.thickness;
      least = any ? std::min(least, half) : half;
      most = std::max(most, half);
      any = true;
    }
  if (!any) return "";
  const std::string from = percent(least), to = percent(most);
  return fmt::format(
      "Along the surface that counts the thickness is known to \u00B1 {}, from "
      "what is uncertain in the inputs and the section's own error; what the "
      "mesh may be off is not in it.",
      from == to ? to : fmt::format("{} to \u00B1 {}", from, to));
}

}  // namespace thinspot::io
