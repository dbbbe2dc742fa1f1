#include "io/bench_words.hpp"

#include "io/number_text.hpp"
#include "io/trade_units.hpp"
#include "mesh/digits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <functional>

namespace thinspot::io {

namespace {

using solver::AnodeState;
using solver::Burn;
using solver::BurnMap;
using solver::BurnSpan;
using solver::Result;

using Lines = std::vector<std::string>;

/// The lines of a result, or of each of its layers with the layer's name.
Lines by_layer(const Result& result,
               const std::function<Lines(const Result&)>& lines_of) {
  if (result.layers.empty()) return lines_of(result);
  Lines all;
  for (const solver::LayerResult& layer : result.layers)
    for (const std::string& line : lines_of(layer.own))
      all.push_back("In the " + layer.name + " layer: " + line);
  return all;
}

std::string density(double amperes_per_m2) {
  return digits(to_a_dm2(amperes_per_m2), 2) + " A/dm²";
}

/// "7.2 A/dm² (3.1 to 11)"
std::string limit_text(double value, double plus_minus) {
  return banded(to_a_dm2(value),
                {to_a_dm2(value - plus_minus), to_a_dm2(value + plus_minus)},
                "A/dm²");
}

const char* word(Burn kind) {
  switch (kind) {
    case Burn::dull: return "dull or rough";
    case Burn::burnt: return "burnt";
    case Burn::powdery: return "burnt to powder";
  }
  return "";
}

/// The spans of one kind in one step.
std::vector<BurnSpan> spans_of(const BurnMap& map, std::size_t step,
                               Burn kind) {
  std::vector<BurnSpan> spans;
  for (const BurnSpan& s : map.spans)
    if (s.step == step && s.kind == kind) spans.push_back(s);
  return spans;
}

/// "at the leg 1 end (3.1 mm), at the leg 2 end (3.1 mm) and 2 more places"
std::string places(const Result& result, const std::vector<BurnSpan>& spans) {
  constexpr std::size_t most = 3;
  std::string text;
  for (std::size_t k = 0; k < std::min(most, spans.size()); ++k) {
    const BurnSpan& s = spans[k];
    text += fmt::format(
        "{}{}{} ({} mm)", k == 0 ? "" : ", ", s.where,
        result.parts.size() > 1 ? " of " + result.parts[s.part].name : "",
        digits(to_mm(s.to - s.from), 2));
  }
  if (spans.size() > most)
    text += fmt::format(" and {} more places", spans.size() - most);
  return text;
}

std::string burn_line(const Result& result, const BurnMap& map,
                      const std::vector<BurnSpan>& spans) {
  const BurnSpan& worst = spans.front();
  std::string text = fmt::format(
      "Likely {}, not certain{}: {}, up to {}, ", word(worst.kind),
      result.steps.size() > 1 ? fmt::format(", in step {}", worst.step + 1)
                              : "",
      places(result, spans), density(worst.peak));
  text += map.given ? fmt::format("{} times what the case says burns.",
                                  digits(worst.share, 2))
                    : fmt::format("{} of the limiting current density, {}.",
                                  digits(worst.share, 2),
                                  limit_text(*map.limit, map.limit_plus_minus));
  const double low = *map.limit - map.limit_plus_minus;
  if (worst.kind == Burn::dull && worst.peak > solver::kBurntShare * low)
    text += " Were the limit at the low end of that, it would burn.";
  return text;
}

Lines burn_of(const Result& result) {
  const BurnMap& map = result.appraisal.burn;
  if (!map.limit) return {};
  if (map.spans.empty()) {
    double most = 0;
    for (const solver::StepResult& step : result.steps)
      most = std::max(most, step.max_current_density);
    const double low = *map.limit - map.limit_plus_minus;
    if (map.given || most < solver::kBurntShare * low) return {};
    return {fmt::format(
        "Burning cannot be ruled out: up to {}, and the limiting current "
        "density is known to {} only.",
        density(most), limit_text(*map.limit, map.limit_plus_minus))};
  }
  const auto worst = std::max_element(
      map.spans.begin(), map.spans.end(),
      [](const BurnSpan& a, const BurnSpan& b) { return a.peak < b.peak; });
  Lines lines;
  for (const Burn kind : {Burn::powdery, Burn::burnt, Burn::dull}) {
    const auto spans = spans_of(map, worst->step, kind);
    if (!spans.empty()) lines.push_back(burn_line(result, map, spans));
  }
  return lines;
}

std::string state_line(const solver::AnodeHealth& health,
                       const solver::AnodeResult& anode, bool several) {
  const char* when = several ? " in the last step" : "";
  const std::string limit =
      limit_text(health.limit->density.value, health.limit->density.plus_minus);
  if (health.state == AnodeState::likely_passive)
    return fmt::format(
        "Anode {}: {} on average{}, above the {} up to which it dissolves: it "
        "likely passivates, the voltage climbs and oxygen comes off. More of "
        "it, or less current.",
        anode.name, density(anode.mean), when, limit);
  return fmt::format(
      "Anode {}: {} on average, up to {}{}, near the {} up to which it "
      "dissolves: it may passivate.",
      anode.name, density(anode.mean), density(anode.max), when, limit);
}

Lines anodes_of(const Result& result) {
  const solver::Anodes& all = result.appraisal.anodes;
  Lines lines;
  bool passive = false;
  for (std::size_t k = 0; k < all.each.size(); ++k) {
    const AnodeState state = all.each[k].state;
    if (state != AnodeState::may_passivate &&
        state != AnodeState::likely_passive)
      continue;
    passive = true;
    lines.push_back(
        state_line(all.each[k], result.anodes[k], result.steps.size() > 1));
  }
  if (passive && all.to_cathode < 1)
    lines.push_back(fmt::format(
        "The anodes' wetted area is {} of the cathodes'; common practice has "
        "once to twice.",
        digits(all.to_cathode, 2)));
  for (const solver::Bipolar& b : all.bipolar)
    if (b.dissolves)
      lines.push_back(fmt::format(
          "Along {} the liquid's potential differs by {} V, more than about {} "
          "V: one side of it dissolves into the solution.",
          b.name, digits(b.span, 2), digits(solver::kBipolarSpan)));
  return lines;
}

Lines edges_of(const Result& result) {
  const auto& e = result.appraisal.edges;
  if (!e) return {};
  return {fmt::format(
      "{}{}: from about {} on {} without levellers likely grows {}; not "
      "certain, common practice.",
      micrometres(e->thickness, 2), e->where.empty() ? "" : ", " + e->where,
      micrometres(e->from, 2), result.used.solution.metal.name, e->likely)};
}

Lines range_of(const Result& result) {
  const auto& in = result.appraisal.range;
  if (!in) return {};
  return {fmt::format(
      "{} % of the surface is between {} and {} A/dm², {}{}.",
      digits(100 * in->share, 2), digits(to_a_dm2(in->low), 2),
      digits(to_a_dm2(in->high), 2),
      result.used.target.working_range ? "the working range"
                                       : "the usual range",
      // Where all of it is there nothing lies below.
      in->share > 0.995 ? ""
                        : "; whether what lies below is covered at all is not "
                          "computed")};
}

}  // namespace

Lines burn_words(const Result& result) { return by_layer(result, burn_of); }

Lines anode_words(const Result& result) { return by_layer(result, anodes_of); }

Lines edge_words(const Result& result) { return by_layer(result, edges_of); }

Lines range_words(const Result& result) { return by_layer(result, range_of); }

}  // namespace thinspot::io
