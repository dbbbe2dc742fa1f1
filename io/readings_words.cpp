#include "io/readings_words.hpp"

#include "io/comparison_words.hpp"
#include "io/number_text.hpp"
#include "io/phrases.hpp"
#include "io/reading_text.hpp"
#include "io/trade_units.hpp"
#include "mesh/digits.hpp"
#include "solver/correlation.hpp"

#include <fmt/format.h>

#include <cmath>

namespace thinspot::io {

namespace {

using solver::Agreement;
using solver::ReadAgainst;
using solver::Reading;
using Of = Reading::Of;
using Where = Reading::Where;

/// A point that lies farther from the surface is told [m].
constexpr double kBeside = 1e-3;
/// Below it nothing leans to either side, in standard deviations.
constexpr double kLeaning = 1;

std::string kind(const Reading& r) {
  switch (r.of) {
    case Of::voltage: return "Voltage";
    case Of::current: return "Current";
    case Of::mass: return "Mass";
    case Of::thickness:
    case Of::ratio: break;
  }
  return r.where == Where::thinnest   ? "Thinnest spot"
         : r.where == Where::heaviest ? "Heaviest spot"
         : r.where == Where::mean     ? "Mean thickness"
                                      : "Thickness";
}

std::string name_of(const ReadAgainst& a) {
  const Reading& r = a.reading;
  if ((r.where == Where::point || r.where == Where::probe) && a.place)
    return capital(a.place->where);
  const bool spot = r.where == Where::thinnest || r.where == Where::heaviest;
  return kind(r) + (r.at.empty() || spot ? "" : ", " + r.at);
}

ReadRow row_of(const ReadAgainst& a) {
  const ReadUnit unit = read_unit(a.reading.of);
  const double f = unit.factor;
  const std::string percent = change_in_percent(a.reading.value, a.forecast);
  const std::string forecast =
      a.band ? banded(f * a.forecast, {f * a.band->low, f * a.band->high},
                      unit.name)
             : full_digits(f * a.forecast, 3) + " " + unit.name;
  return {name_of(a),
          fmt::format("{} ± {} {}", full_digits(f * a.reading.value, 3),
                      digits(f * a.reading.plus_minus, 2), unit.name),
          forecast,
          signed_digits(f * a.by(), 2) + " " + unit.name +
              (percent.empty() ? "" : " (" + percent + ")"),
          signed_digits(a.z, 2)};
}

std::string verdict(const Agreement& g) {
  if (g.count == 1)
    return g.agree()
               ? "Forecast and reading agree: they lie no farther apart than "
                 "both are uncertain."
               : "Forecast and reading do not agree: they lie farther apart "
                 "than both are uncertain.";
  const std::string counted =
      g.beyond == 0 ? fmt::format(
                          "all {} lie no farther apart than both are "
                          "uncertain",
                          g.count)
                    : fmt::format(
                          "{} of {} {} farther apart than both are "
                          "uncertain",
                          g.beyond, g.count, g.beyond == 1 ? "lies" : "lie");
  if (!g.agree())
    return "Forecast and readings do not agree: " + counted +
           (g.count_agrees() ? ", too far for chance alone." : ".");
  return "Forecast and readings agree: " + counted +
         (g.beyond == 0 ? "." : ", as chance alone may do.");
}

std::vector<std::string> places(const std::vector<ReadAgainst>& all,
                                const Agreement& g) {
  const ReadAgainst& worst = all[g.worst];
  const ReadRow row = row_of(worst);
  std::vector<std::string> said;
  said.push_back(
      fmt::format("Farthest apart: {} (line {}): read {}, forecast "
                  "{}, which is {} standard deviations.",
                  row.name, worst.reading.line, row.read, row.forecast, row.z));
  // Of the mean of n numbers with deviation 1 each.
  const double lean =
      std::sqrt(static_cast<double>(g.count)) * std::abs(g.mean);
  if (g.count > 2 && std::abs(g.mean) > kLeaning && lean > solver::kOf95)
    said.push_back(fmt::format(
        "The forecast lies {} most readings: {} standard deviations in the "
        "mean.",
        g.mean > 0 ? "above" : "below", signed_digits(g.mean, 2)));
  if (!g.agree())
    said.emplace_back(
        "thinspot fit looks for inputs that would bring them together.");
  return said;
}

std::vector<std::string> notes(const std::vector<ReadAgainst>& all) {
  std::vector<std::string> said{
      "z is forecast less reading over the standard deviation of both "
      "together; beyond ±1.96 they lie 1 time in 20 where all errors are as "
      "stated. Forecasts of one result err together, so that several readings "
      "beyond it weigh less than as many separate ones."};
  bool unsure = false;
  for (const ReadAgainst& a : all) {
    unsure = unsure || !a.band;
    if (a.place && a.place->beside > kBeside)
      said.push_back(fmt::format(
          "The point of line {} lies {} mm beside the surface; the nearest of "
          "it was taken.",
          a.reading.line, digits(to_mm(a.place->beside), 2)));
    if (!a.reading.plus_minus_source.empty())
      said.push_back(fmt::format("± of line {}: {}.", a.reading.line,
                                 a.reading.plus_minus_source));
  }
  if (unsure)
    said.emplace_back(
        "Where the result keeps no band for a forecast, the reading's own ± "
        "stands alone against it.");
  return said;
}

}  // namespace

ReadingsWords readings_words(const std::vector<ReadAgainst>& all) {
  const Agreement g = solver::agreement(all);
  ReadingsWords words{verdict(g), places(all, g), notes(all), {}};
  for (const ReadAgainst& a : all) words.rows.push_back(row_of(a));
  return words;
}

}  // namespace thinspot::io
