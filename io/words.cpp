#include "io/words.hpp"

#include "io/copies.hpp"
#include "io/layer_words.hpp"
#include "io/meter_words.hpp"
#include "io/number_text.hpp"
#include "io/set_up_words.hpp"
#include "io/solution_words.hpp"
#include "io/trade_units.hpp"
#include "io/verdict.hpp"

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
  const int count = digits_worth(extreme, band);
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
  const bool several = result.parts.size() > 1;
  const PartResult& thin = result.parts[thinnest_spot_on(result)];
  const PartResult& heavy = result.parts[heaviest_spot_on(result)];
  Words words{.verdict = verdict(result),
              .thin = spots_sentence("Thinnest", thin.thickness.value.min,
                                     thin.thickness.min_band, thin,
                                     thin.thin_spots, several),
              .heavy = spots_sentence("Heaviest", heavy.thickness.value.max,
                                      heavy.thickness.max_band, heavy,
                                      heavy.heavy_spots, several),
              .copies = copies_words(result),
              .shares = shares_words(result),
              .bare = bare_words(result),
              .floating = floating_words(result),
              .meter = meter_words(result),
              .wagner = wagner(result),
              .solution = solution_in_words(result.used.solution)};
  if (!result.layers.empty()) speak_of_layers(result, words);
  return words;
}

}  // namespace thinspot::io
