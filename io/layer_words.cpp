#include "io/layer_words.hpp"

#include "io/adapter_words.hpp"
#include "io/copies.hpp"
#include "io/meter_words.hpp"
#include "io/number_text.hpp"
#include "io/trade_units.hpp"
#include "io/verdict.hpp"
#include "io/why_words.hpp"
#include "mesh/digits.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io {

namespace {

using solver::LayerResult;
using solver::Result;

std::string label(const LayerResult& layer, const std::string& text) {
  return "In the " + layer.name + " layer: " + text;
}

bool missed(const LayerResult& layer) {
  return layer.own.target && !layer.own.target->met;
}

/// "Target not met in the nickel layer."
std::string targets(const Result& result) {
  std::vector<std::string> short_ones;
  std::size_t judged = 0;
  for (const LayerResult& layer : result.layers) {
    judged += layer.own.target.has_value();
    if (missed(layer)) short_ones.push_back(layer.name);
  }
  if (judged == 0) return "No target thickness is set for any layer.";
  if (short_ones.empty())
    return judged == result.layers.size()
               ? "Target met in every layer."
               : fmt::format(
                     "Target met in {} of {} layers; the other{} none.", judged,
                     result.layers.size(),
                     result.layers.size() - judged > 1 ? "s have" : " has");
  if (short_ones.size() == 1)
    return fmt::format("Target not met in the {} layer.", short_ones.front());
  return fmt::format("Target not met in the layers {}.",
                     fmt::join(short_ones, " and "));
}

std::string together(const Result& result) {
  const std::size_t thin = thinnest_spot_on(result);
  const auto& t = result.parts[thin].thickness;
  const Banded mean = mean_thickness(result);
  return fmt::format(
      "All layers together: {} at the thinnest{}, {} on average.",
      micrometres(t.value.min, t.min_band),
      result.parts.size() > 1 ? " of all copies" : "",
      micrometres(mean.value, mean.band));
}

}  // namespace

std::vector<std::string> layer_words(const Result& result) {
  std::vector<std::string> lines;
  for (const LayerResult& layer : result.layers) {
    const Result& own = layer.own;
    const Banded mean = mean_thickness(own);
    const auto& thin = own.parts[thinnest_spot_on(own)].thickness;
    const auto& heavy = own.parts[heaviest_spot_on(own)].thickness;
    std::string text = fmt::format(
        "{}: {} on average, {} at the thinnest, {} at the heaviest; {} g at {} "
        "A in {}.",
        layer.name, micrometres(mean.value, mean.band),
        micrometres(thin.value.min, thin.min_band),
        micrometres(heavy.value.max, heavy.max_band),
        digits(to_grams(whole_mass(own))), digits(own.cell.current),
        duration_text(total_duration(own.used)));
    if (own.target) text += " " + verdict(own);
    lines.push_back(std::move(text));
  }
  return lines;
}

void speak_of_layers(const Result& result, Words& words) {
  words.verdict = targets(result) + " " + together(result);
  words.layers = layer_words(result);
  words.floating.clear();
  words.meter.clear();
  words.shares.clear();
  words.wagner.clear();
  words.why = why_words(result);
  std::vector<std::string> rules;  // of any meter, said once
  for (const LayerResult& layer : result.layers) {
    const Words own = words_for(layer.own);
    for (const std::string& text : own.floating)
      words.floating.push_back(label(layer, text));
    const std::vector<std::string> meter = meter_words(layer.own);
    if (!meter.empty()) words.meter.push_back(label(layer, meter.front()));
    for (std::size_t k = 1; k < meter.size(); ++k)
      if (std::find(rules.begin(), rules.end(), meter[k]) == rules.end())
        rules.push_back(meter[k]);
    for (const std::string& text : supply_words(layer.own))
      words.meter.push_back(label(layer, text));
    const auto add = [&](std::string& all, const std::string& text) {
      if (text.empty()) return;
      all += (all.empty() ? "" : " ") + label(layer, text);
    };
    add(words.shares, own.shares);
    add(words.wagner, own.wagner);
    add(words.throwing, own.throwing);
  }
  words.meter.insert(words.meter.end(), rules.begin(), rules.end());
}

}  // namespace thinspot::io
