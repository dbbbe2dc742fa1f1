#include "io/words.hpp"

#include "io/adapter_words.hpp"
#include "io/bench_words.hpp"
#include "io/copies.hpp"
#include "io/evenness_words.hpp"
#include "io/forecast_words.hpp"
#include "io/gas_words.hpp"
#include "io/layer_words.hpp"
#include "io/meter_words.hpp"
#include "io/number_text.hpp"
#include "io/set_up_words.hpp"
#include "io/solution_words.hpp"
#include "io/todo_words.hpp"
#include "io/trade_units.hpp"
#include "io/verdict.hpp"
#include "io/why_words.hpp"
#include "mesh/digits.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io {

namespace {

using solver::Interval;
using solver::PartResult;
using solver::Result;

/// Where plating differs by less than this share of the mean, no spot is worth
/// naming.
constexpr double even = 0.03;
constexpr std::size_t most_spots = 3;

std::string spots_sentence(std::string_view word, double extreme,
                           const Interval& band, const PartResult& part,
                           const std::vector<solver::Spot>& spots,
                           bool several) {
  std::string text = fmt::format("{}: {}", word, micrometres(extreme, band));
  if (several) text += " on " + part.name;
  const solver::Spread& t = part.thickness.value;
  if (spots.empty() || t.max - t.min < even * t.mean)
    return text + "; the plating is even, no spot stands out.";
  text += ", " + spots.front().where;
  const int count = solver::digits_worth(extreme, band);
  // Two edges of one short face read alike: said once.
  std::vector<std::string> said{spots.front().where};
  for (const solver::Spot& spot : spots) {
    if (said.size() == most_spots) break;
    if (std::find(said.begin(), said.end(), spot.where) != said.end()) continue;
    text += fmt::format("{} {} µm, {}", said.size() == 1 ? ". Next:" : ";",
                        full_digits(to_um(spot.thickness), count), spot.where);
    said.push_back(spot.where);
  }
  return text + ".";
}

}  // namespace

Words words_for(const Result& result) {
  const bool several = result.parts.size() > 1;
  const PartResult& thin = result.parts[thinnest_spot_on(result)];
  const PartResult& heavy = result.parts[heaviest_spot_on(result)];
  Words words{.verdict = verdict(result),
              .todo = todo_words(result),
              .thin = spots_sentence("Thinnest", thin.thickness.value.min,
                                     thin.thickness.min_band, thin,
                                     thin.thin_spots, several),
              .sure = sure_words(result),
              .measure = measure_words(result),
              .along = along_words(result),
              .heavy = spots_sentence("Heaviest", heavy.thickness.value.max,
                                      heavy.thickness.max_band, heavy,
                                      heavy.heavy_spots, several),
              .copies = copies_words(result),
              .shares = shares_words(result),
              .bare = bare_words(result),
              .floating = floating_words(result),
              .meter = meter_words(result),
              .wagner = evenness_words(result),
              .throwing = throwing_words(result),
              .why = why_words(result),
              .gas = gas_words(result.appraisal.gas),
              .burn = burn_words(result),
              .anodes = anode_words(result),
              .edges = edge_words(result),
              .range = range_words(result),
              .solution = solution_in_words(result.used.solution)};
  for (std::string& line : supply_words(result))
    words.meter.push_back(std::move(line));
  if (!result.layers.empty()) speak_of_layers(result, words);
  return words;
}

}  // namespace thinspot::io
