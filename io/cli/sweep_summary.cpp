#include "io/cli/sweep_summary.hpp"

#include "io/cli/wrap.hpp"
#include "io/number_text.hpp"
#include "mesh/digits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::io::cli {

namespace {

/// Lines that a point, a message and the list of files take at most.
constexpr std::size_t kPointLines = 5, kMostMessages = 4, kFileLines = 5;

/// The first lines of a text.
std::string cut_to(std::size_t lines, const std::string& text) {
  std::size_t at = 0;
  for (std::size_t k = 0; k < lines; ++k) {
    at = text.find('\n', at);
    if (at == std::string::npos) return text;
    ++at;
  }
  return at == text.size() ? text : text.substr(0, at - 1) + " …\n";
}

std::string figures(const Sweep& sweep, const SweepRow& row) {
  const auto value = [&](const char* name) {
    return row.outputs[output_index(sweep.outputs(), name)];
  };
  std::string text =
      fmt::format("thinnest spot {} µm, heaviest {} times that; {} A, {} V",
                  digits(value("significant_min_um"), 3),
                  digits(value("heaviest_over_thinnest"), 3),
                  digits(value("current_A"), 3), digits(value("voltage_V"), 3));
  if (const double time = value("time_needed_min"); std::isfinite(time))
    text += fmt::format("; {} for the target", time_estimate(60 * time));
  if (value("burns") == 1) text += "; likely burns";
  return text;
}

std::string point(const Sweep& sweep, const std::string& name,
                  const SweepRow& row) {
  return cut_to(
      kPointLines,
      wrapped(fmt::format("{}: point {}, {}: {}.", name, row.point + 1,
                          point_text(sweep, row.point), figures(sweep, row)),
              2));
}

std::string counts(const Sweep& sweep, const SweepOverview& o) {
  std::string text = fmt::format("{} points, {} computed now: {} with a result",
                                 sweep.size(), o.computed, o.done);
  for (const auto& [count, words] :
       {std::pair{o.refused, "refused"}, std::pair{o.no_result, "without one"},
        std::pair{o.lost, "lost"}})
    if (count > 0) text += fmt::format(", {} {}", count, words);
  return wrapped(text + ".");
}

std::string files(const OutputFolder& folder) {
  std::string text =
      folder.path().string() + "/: " + std::string(sweep_database);
  for (const WrittenFile& file : folder.written()) text += " " + file.name;
  return cut_to(kFileLines, wrapped(text, 2));
}

}  // namespace

std::string sweep_summary(const Sweep& sweep, const SweepOverview& o,
                          const OutputFolder& folder) {
  std::string text = counts(sweep, o);
  for (std::size_t k = 0; k < std::min(kMostMessages, o.messages.size()); ++k)
    text += cut_to(3, wrapped_in(fmt::format("{} × {}", o.messages[k].second,
                                             o.messages[k].first),
                                 2, 6));
  if (o.messages.size() > kMostMessages)
    text += "  … and others: column message of points.csv\n";
  if (o.most_even) text += point(sweep, "Most even", *o.most_even);
  if (o.soonest)
    text += point(sweep, "Target soonest where nothing burns", *o.soonest);
  const auto& best = o.soonest ? o.soonest : o.most_even;
  // A command is copied as it stands, so its line is not broken.
  if (best)
    text +=
        fmt::format("All of it, with its cautions:\n  thinspot solve {} {}\n",
                    sweep.request().file, point_options(sweep, best->point));
  return text + files(folder);
}

}  // namespace thinspot::io::cli
