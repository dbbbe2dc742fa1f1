#include "io/preparation_words.hpp"

#include "io/nearest.hpp"
#include "io/phrases.hpp"
#include "io/trade_units.hpp"
#include "mesh/digits.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io {

namespace {

using solver::Preparation;
using solver::Verdict;

/// What the coating meets: "low-carbon steel (mild steel)".
std::string surface(const Preparation& p) {
  if (p.onto.starts_with("fresh ")) return p.onto;
  return p.onto == p.base ? p.base : fmt::format("{} ({})", p.base, p.onto);
}

std::string unknown(const Preparation& p) {
  const auto near = nearest(p.given, p.known);
  const std::string begin =
      p.given.empty()
          ? "What the part is made of is not said (part.metal). "
          : fmt::format("The library does not know \"{}\"{}. ", p.given,
                        near ? fmt::format("; is \"{}\" meant?", *near) : "");
  return begin +
         "Find out before it gets wet: magnet, file mark, weight by volume. "
         "What you cannot name is not to be plated.";
}

std::string verdict_of(const Preparation& p) {
  if (!p.verdict) {
    if (p.base.empty()) return unknown(p);
    return fmt::format(
        "Nothing is known of {} on {}: plate a scrap piece first and test it.",
        p.coating, surface(p));
  }
  switch (*p.verdict) {
    case Verdict::holds:
      if (!p.struck.empty())
        return fmt::format("{} holds on {} over the {}.", capital(p.coating),
                           p.onto.starts_with("fresh ") ? p.base : surface(p),
                           p.struck);
      return fmt::format("{} holds on {}: {}.", capital(p.coating), surface(p),
                         p.why);
    case Verdict::needs_strike:
      return fmt::format("{} straight onto {} will not hold: {}. First {}.",
                         capital(p.coating), surface(p), p.why,
                         with_or(p.strike));
    case Verdict::will_not_hold:
      return fmt::format("{} will not hold on {}: {}.", capital(p.coating),
                         surface(p), p.why);
    case Verdict::do_not_plate:
      return fmt::format("Do not plate {} onto {} here: {}.", p.coating,
                         p.base.empty() ? "anything" : surface(p), p.why);
  }
  return "";
}

bool worth_doing(const Preparation& p) {
  return p.verdict &&
         (*p.verdict == Verdict::holds || *p.verdict == Verdict::needs_strike);
}

std::string way_in(const Preparation& p) {
  return fmt::format(
      "wet into the solution within {}, {}", p.transfer,
      p.current_on ? "with the current already on" : "current on at once");
}

std::string brief_of(const Preparation& p) {
  if (!worth_doing(p)) return "";
  std::string text;
  for (const solver::Task& task : p.tasks) text += task.what + "; ";
  return capital(text + way_in(p)) + ".";
}

std::vector<std::string> steps_of(const Preparation& p) {
  std::vector<std::string> lines;
  if (!worth_doing(p)) return lines;
  for (const solver::Task& task : p.tasks)
    lines.push_back(fmt::format(
        "{}. {}{}{}{}", lines.size() + 1, task.what,
        task.time.starts_with("as ") ? "" : ", " + task.time,
        task.temperature == "room" || task.temperature.starts_with("that ")
            ? ""
            : ", " + task.temperature,
        task.rinse ? "; rinse" : ""));
  lines.push_back(fmt::format("{}. {}", lines.size() + 1, way_in(p)));
  return lines;
}

/// "1 and 2 (the part is flipped), 3 and 4 (the part is turned) and 2 more"
std::string listed_stops(const std::vector<solver::Interruption>& stops) {
  constexpr std::size_t most = 4;
  std::string where;
  for (std::size_t k = 0; k < std::min(most, stops.size()); ++k) {
    const solver::Interruption& i = stops[k];
    where += k == 0 ? "" : ", ";
    where += i.times > 0 ? fmt::format("{} ({}, {} {})", i.after, i.what,
                                       i.times, i.times == 1 ? "time" : "times")
                         : fmt::format("{} and {} (the part is {})", i.after,
                                       i.after + 1, i.what);
  }
  if (stops.size() > most)
    where += fmt::format(" and {} more", stops.size() - most);
  return where;
}

std::vector<std::string> interruptions_of(const Preparation& p) {
  if (p.off.empty() || p.interruptions.empty()) return {};
  std::vector<solver::Interruption> within, between;
  for (const solver::Interruption& i : p.interruptions)
    (i.times > 0 ? within : between).push_back(i);
  const std::string mend =
      p.reactivate && p.reactivation
          ? fmt::format(" Keep it on by a second lead, or {}.",
                        p.reactivation->what)
          : "";
  std::vector<std::string> lines;
  if (!within.empty())
    lines.push_back(fmt::format(
        "The part is moved during step {}: by hand that is with the current "
        "off, unless the lead stays on. {}{}",
        listed_stops(within), p.off, mend));
  if (!between.empty())
    lines.push_back(fmt::format("Between steps {} the current is off. {}{}",
                                listed_stops(between), p.off, mend));
  return lines;
}

std::vector<std::string> weights_of(const Preparation& p) {
  if (p.weights.empty()) return {};
  std::string text;
  for (const solver::Weight& w : p.weights)
    text += fmt::format("{}{} {} to {} g", text.empty() ? "" : ", ", w.metal,
                        digits(to_grams(w.low)), digits(to_grams(w.high)));
  return {"The part as drawn, solid, would weigh in " + text + "."};
}

void add_identify(const Preparation& p, std::vector<std::string>& lines) {
  if (!p.identify) return;
  lines.insert(lines.end(),
               {p.identify->magnet, p.identify->file, p.identify->weight});
  lines.push_back(p.identify->refuse);
}

std::vector<std::string> more_of(const Preparation& p) {
  std::vector<std::string> lines;
  add_identify(p, lines);
  if (p.reactivate && p.reactivation && !p.interruptions.empty())
    lines.push_back(fmt::format("To {}: {}. ({})", p.reactivation->what,
                                p.reactivation->how, p.reactivation->source));
  if (!p.peels.empty()) lines.push_back("Why a coating peels: " + p.peels);
  if (!p.remark.empty()) lines.push_back(p.remark);
  if (!p.refuse.empty()) lines.push_back(p.refuse);
  if (!p.bake.empty())
    lines.push_back("Bake against hydrogen: " + p.bake + ".");
  if (!p.base.empty())
    lines.push_back(
        "Standard: " + (p.standard.empty() ? "" : p.standard + ", ") +
        p.standard_title + ".");
  if (worth_doing(p))
    lines.push_back(p.adhesion.text + " " + p.adhesion.standard + ".");
  if (!p.source.empty()) lines.push_back("Source: " + p.source + ".");
  return lines;
}

std::vector<std::string> details_of(const Preparation& p) {
  std::vector<std::string> lines;
  if (!worth_doing(p)) return lines;
  for (const solver::Task& task : p.tasks)
    lines.push_back(fmt::format("{}: {}. Why: {}. ({})", capital(task.what),
                                task.how, task.why, task.source));
  return lines;
}

}  // namespace

PreparationWords words_for(const Preparation& p) {
  return {verdict_of(p), brief_of(p), steps_of(p),  interruptions_of(p),
          weights_of(p), more_of(p),  details_of(p)};
}

std::vector<Preparation> preparations_of(const solver::Result& result) {
  std::vector<Preparation> all;
  const auto add = [&](const solver::Case& c) {
    if (auto p = solver::prepare(c)) all.push_back(std::move(*p));
  };
  if (result.layers.empty()) add(result.used);
  for (const solver::LayerResult& layer : result.layers) add(layer.own.used);
  return all;
}

}  // namespace thinspot::io
