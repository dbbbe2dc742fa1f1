#include "io/cli/terminal_summary.hpp"

#include "io/cli/tables.hpp"
#include "io/cli/terminal.hpp"
#include "io/cli/wrap.hpp"
#include "io/copies.hpp"
#include "io/number_text.hpp"
#include "io/preparation_words.hpp"
#include "io/trade_units.hpp"
#include "mesh/digits.hpp"
#include "solver/step_view.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io::cli {

namespace {

using solver::PartResult;
using solver::Result;

/// Rows that a list may take before it is cut short; the page has them all.
constexpr std::size_t most_assumed = 6;
constexpr std::size_t most_probes = 4;
constexpr std::size_t most_steps = 8;
constexpr std::size_t most_cautions = 3;

/// "copper", or "copper and nickel".
std::string metals(const Result& result) {
  if (result.layers.empty()) return result.used.solution.metal.name;
  std::string text;
  for (const solver::LayerResult& layer : result.layers)
    if (text.find(layer.metal) == std::string::npos)
      text += (text.empty() ? "" : " and ") + layer.metal;
  return text;
}

std::string mean_line(const Result& result) {
  const Banded mean = mean_thickness(result);
  const std::size_t copies = result.parts.size();
  return wrapped(
      fmt::format("Mean:     {} on {} cm²{}; {} g of {} in {}.",
                  micrometres(mean.value, mean.band),
                  digits(to_cm2(whole_area(result))),
                  copies > 1 ? fmt::format(" of {} copies", copies) : "",
                  digits(to_grams(whole_mass(result))), metals(result),
                  duration_text(total_duration(result.used))),
      10);
}

std::string current_line(const Result& result) {
  const double on_parts = whole_current(result);
  const bool several = result.parts.size() > 1;
  // At any angle of a part that turns, not at the one shown alone.
  double most = result.steps.back().max_current_density;
  for (const PartResult& part : result.parts)
    most = std::max(most, part.current_density.value.max);
  // Bare wires, clips and thieves take their share.
  const bool shared = on_parts < 0.999 * result.cell.current;
  std::string text = fmt::format("Current:  {}{} A",
                                 result.layers.empty() ? "" : "last layer ",
                                 digits(result.cell.current));
  if (shared)
    text += fmt::format(" in all, {} A on the part{}", digits(on_parts),
                        several ? "s" : "");
  text += fmt::format(": {} A/dm² on average, {} at most.",
                      digits(to_a_dm2(on_parts / whole_area(result))),
                      digits(to_a_dm2(most)));
  return wrapped(text, 10);
}

/// Each of several layers with what it has become.
std::string layer_lines(const Words& words) {
  std::string text;
  for (std::size_t k = 0; k < words.layers.size(); ++k)
    text += wrapped(fmt::format("Layer {}:  {}", k + 1, words.layers[k]), 10);
  return text.empty() ? text : text + "\n";
}

/// Each step with the least and largest thickness after it.
std::string step_lines(const Result& result) {
  if (result.steps.size() < 2) return "";
  std::string text;
  const std::size_t shown = std::min(result.steps.size(), most_steps);
  for (std::size_t k = 0; k < shown; ++k) {
    const solver::StepResult& step = result.steps[k];
    const solver::Interval grown = solver::thickness_after(step);
    text += wrapped(
        fmt::format("Step {}:   {}, {}: then {} to {} µm.{}", k + 1,
                    duration_text(step.duration), solver::step_in_words(step),
                    digits(to_um(grown.low), 2), digits(to_um(grown.high), 2),
                    step.burning ? " Expect burning." : ""),
        10);
  }
  if (result.steps.size() > shown)
    text += fmt::format("… and {} more steps in the report\n",
                        result.steps.size() - shown);
  return text;
}

/// " (copper 12, nickel 5.1)".
std::string by_layer(const Result& result, std::size_t probe) {
  std::vector<std::string> words;
  for (const solver::LayerResult& layer : result.layers)
    words.push_back(layer.name + " " +
                    digits(to_um(layer.own.probes[probe].thickness)));
  return words.empty() ? "" : fmt::format(" ({})", fmt::join(words, ", "));
}

std::string probe_lines(const Result& result) {
  std::string text;
  const auto& probes = result.probes;
  const std::size_t shown = std::min(probes.size(), most_probes);
  for (std::size_t k = 0; k < shown; ++k)
    text += wrapped(
        fmt::format("Probe:    {}: {} µm{}, {} A/dm²", probes[k].name,
                    digits(to_um(probes[k].thickness)), by_layer(result, k),
                    digits(to_a_dm2(probes[k].current_density))),
        10);
  if (probes.size() > shown)
    text += fmt::format("… and {} more probes in the report\n",
                        probes.size() - shown);
  return text;
}

std::string assumed_lines(const solver::Case& c) {
  if (c.assumed.empty()) return "";
  std::string text = "Assumed: ";
  const std::size_t shown = std::min(c.assumed.size(), most_assumed);
  for (std::size_t k = 0; k < shown; ++k)
    text += fmt::format("{}{} = {}", k == 0 ? "" : ", ", c.assumed[k].key,
                        c.assumed[k].value);
  if (c.assumed.size() > shown)
    text += fmt::format(" … and {} more", c.assumed.size() - shown);
  return wrapped(text + ". The report says why.", 2);
}

/// Whether each layer holds, and what handling in between does.
std::string preparation_lines(const Result& result) {
  std::string text;
  for (const solver::Preparation& p : preparations_of(result)) {
    const PreparationWords words = words_for(p);
    text += wrapped("Prepare:  " + words.verdict, 10);
    if (!p.reactivate) continue;  // the report has it
    for (const std::string& line : words.interruptions)
      text += wrapped_in(line, 10, 10);
  }
  return text;
}

std::string caution_lines(const std::vector<std::string>& cautions) {
  std::string text;
  const std::size_t shown = std::min(cautions.size(), most_cautions);
  for (std::size_t k = 0; k < shown; ++k)
    text += wrapped("Caution: " + cautions[k], 2);
  if (cautions.size() > shown)
    text += fmt::format("… and {} more cautions in the report\n",
                        cautions.size() - shown);
  return text;
}

}  // namespace

void print_summary(const Result& result, const Words& words,
                   const std::filesystem::path& folder) {
  print(stdout, wrapped(result.used.title));
  print_bold(stdout, wrapped(words.verdict));
  std::string text = "\n";
  text += layer_lines(words);
  text += wrapped(words.thin, 10);
  text += wrapped(words.heavy, 10);
  if (!words.sure.empty()) text += wrapped("Doubt:    " + words.sure, 10);
  text += mean_line(result);
  text += current_line(result);
  if (!words.shares.empty()) text += wrapped("Shares:   " + words.shares, 10);
  if (!words.copies.empty()) text += wrapped("Rack:     " + words.copies, 10);
  if (result.layers.empty()) text += wrapped("Solution: " + words.solution, 10);
  if (result.used.target.working_range)
    for (const std::string& line : words.range)
      text += wrapped("Range:    " + line, 10);
  text += step_lines(result);
  text += probe_lines(result);
  for (const std::string& line : words.bare) text += wrapped(line, 2);
  text += "\n";
  if (result.parts.size() > 1) text += copy_table(result) + "\n";
  text += face_table(result.parts[thinnest_spot_on(result)],
                     result.parts.size() > 1) +
          "\n";
  for (const std::string& line : words.meter) text += wrapped(line, 2);
  if (result.layers.empty()) text += wrapped(words.wagner, 2);
  if (!words.why.empty()) text += wrapped(words.why, 2);
  if (!words.gas.empty()) text += wrapped(words.gas, 2);
  text += assumed_lines(result.used);
  for (const auto* lines :
       {&words.burn, &words.anodes, &words.edges, &words.floating})
    for (const std::string& line : *lines)
      text += wrapped("Caution: " + line, 2);
  text += preparation_lines(result);
  text += caution_lines(result.cautions);
  for (const std::string& line : words.todo)
    text += wrapped("To do:    " + line, 10);
  text += "Open " + (folder / "report.html").string() + "\n";
  print(stdout, text);
}

}  // namespace thinspot::io::cli
