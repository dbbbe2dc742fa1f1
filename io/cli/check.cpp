#include "io/cli/case_files.hpp"
#include "io/cli/options.hpp"
#include "io/cli/terminal.hpp"
#include "io/cli/verb.hpp"
#include "io/cli/wrap.hpp"
#include "io/inspection_words.hpp"
#include "io/output_file.hpp"
#include "io/preparation_words.hpp"
#include "solver/cautions.hpp"
#include "solver/inspect.hpp"
#include "solver/layers.hpp"
#include "solver/same_part.hpp"
#include "viz/drawing_picture.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

namespace thinspot::io::cli {

namespace {

const std::vector<Option> options = {
    {"out", "FILE", "the drawing; left out: CASE-check.svg beside the case"},
    {"set", "KEY=VALUE",
     "override a key, as in anode.sheet.gap=\"20 mm\"; any number", true},
    {"full", "", "print every caution and all on the preparation"},
    {"quiet", "", "print nothing but errors"},
    {"help", "", "this text"},
};

/// Rows that a list may take before it is cut short.
constexpr std::size_t most_looks = 7;
constexpr std::size_t most_hanging = 4;
constexpr std::size_t most_notes = 3;
constexpr std::size_t most_assumed = 6;
constexpr std::size_t most_cautions = 2;

std::string more() {
  return "Several cases are layers on one part, each looked over in turn.\n"
         "Nothing is solved: currents, voltage and time are estimates. Exit "
         "status "
         "0\nalso where there is something to look at.\n";
}

CommandLine checked(const std::vector<std::string>& arguments) {
  CommandLine line = parse_options(check_verb.name, options, arguments);
  if (line.has("help")) return line;
  if (line.operands.empty())
    throw InputError("", "no case file is given",
                     "write: thinspot check CASE.toml");
  if (line.operands.size() > 1 && line.has("out"))
    throw InputError("--out", "names one drawing, and there are several cases",
                     "leave it out: each gets a CASE-check.svg beside it");
  return line;
}

solver::Inspection inspected(const CaseFile& file) {
  try {
    return solver::inspect(file.content);
  } catch (const InputError& error) {
    throw located(error, file);
  }
}

std::filesystem::path default_drawing(const std::filesystem::path& file) {
  return file.parent_path() / (file.stem().string() + "-check.svg");
}

/// A list cut short. @param first, rest  what leads in the first entry, and
/// the others.
std::string list(const std::vector<std::string>& entries, std::size_t most,
                 const std::string& first, const std::string& rest) {
  std::string text;
  const std::size_t shown = std::min(entries.size(), most);
  for (std::size_t k = 0; k < shown; ++k)
    text += (k == 0 ? first : rest) +
            wrapped(entries[k], rest.size(), 80 - rest.size());
  if (entries.size() > shown)
    text += fmt::format("… and {} more\n", entries.size() - shown);
  return text;
}

std::string assumed_line(const solver::Case& c) {
  if (c.assumed.empty()) return "";
  std::string text = "Assumed: ";
  const std::size_t shown = std::min(c.assumed.size(), most_assumed);
  for (std::size_t k = 0; k < shown; ++k)
    text += fmt::format("{} {} = {}", k == 0 ? "" : ",", c.assumed[k].key,
                        c.assumed[k].value);
  if (c.assumed.size() > shown)
    text += fmt::format(" … and {} more", c.assumed.size() - shown);
  return wrapped(text, 10);
}

/// What is done to the part before it goes in, verdict first.
std::string preparation_lines(const solver::Case& c, bool full) {
  const auto p = solver::prepare(c);
  if (!p) return "";
  const PreparationWords words = words_for(*p);
  std::string text = wrapped("Prepare:  " + words.verdict, 10);
  const auto add = [&](const std::vector<std::string>& lines) {
    for (const std::string& line : lines) text += wrapped_in(line, 10, 13);
  };
  if (full)
    add(words.steps);
  else if (!words.brief.empty())
    text += wrapped_in(words.brief, 10, 10);
  add(words.interruptions);
  add(words.weights);
  if (full) {
    add(words.details);
    add(words.more);
  }
  return text;
}

std::string caution_lines(const solver::Case& c, bool full) {
  const std::vector<std::string> all = solver::cautions_for(c);
  const std::size_t shown = full ? all.size() : most_cautions;
  std::string text;
  for (std::size_t k = 0; k < std::min(shown, all.size()); ++k)
    text += wrapped("Caution: " + all[k], 2);
  if (all.size() > shown)
    text += wrapped(
        fmt::format("… and {} more with --full; they do not replace safety "
                    "data sheets, local codes or licensed practice.",
                    all.size() - shown),
        2);
  return text;
}

void print_inspection(const solver::Inspection& inspection,
                      const InspectionWords& words, const solver::Case& c,
                      const std::filesystem::path& drawing, bool full) {
  print(stdout, wrapped(c.title));
  print_bold(stdout, wrapped(words.verdict));
  std::string text = list(words.looks, most_looks, "- ", "- ");
  text += "\n";
  text += wrapped("Part:     " + words.part, 10);
  text += wrapped("Solution: " + words.solution, 10);
  text += wrapped("Current:  " + words.current, 10);
  text += wrapped("Voltage:  " + words.voltage, 10);
  for (std::size_t k = 0; k < words.supply.size(); ++k)
    text += k == 0 ? wrapped("Supply:   " + words.supply[k], 10)
                   : wrapped_in(words.supply[k], 10, 10);
  text += wrapped("Time:     " + words.time, 10);
  if (!c.target.standard.empty())
    text += wrapped(
        fmt::format("Target:   {}, {}: {}.", c.target.standard,
                    c.target.thickness_class, c.target.thickness_source),
        10);
  text += wrapped("Anodes:   " + words.anodes, 10);
  text += preparation_lines(c, full);
  text += list(words.hanging, most_hanging, "Hanging:  ", "          ");
  text += list(inspection.notes, most_notes, "Note:     ", "          ");
  text += assumed_line(c);
  text += caution_lines(c, full);
  text += "Open " + drawing.string() + "\n";
  print(stdout, text);
}

/// Several as the layers that they are going to be.
std::vector<CaseFile> read(const CommandLine& line) {
  std::vector<CaseFile> files = read_cases(line);
  if (files.size() == 1) return files;
  solver::check_same_part(contents(files));
  const std::vector<solver::Case> layers = solver::as_layers(contents(files));
  for (std::size_t k = 0; k < files.size(); ++k) {
    files[k].content.part_metal = layers[k].part_metal;
    files[k].content.below = layers[k].below;
  }
  return files;
}

void check_one(const CaseFile& file, const CommandLine& line) {
  const solver::Inspection inspection = inspected(file);
  const std::filesystem::path drawing =
      line.has("out") ? std::filesystem::path(line.value("out"))
                      : default_drawing(file.path);
  write_picture(drawing,
                viz::drawing_picture(file.content, inspection.section));
  if (!line.has("quiet"))
    print_inspection(inspection, words_for(inspection, file.content),
                     file.content, drawing, line.has("full"));
}

int check(const std::vector<std::string>& arguments) {
  const CommandLine line = checked(arguments);
  if (line.has("help")) {
    print(stdout, help_of(check_verb));
    return 0;
  }
  const std::vector<CaseFile> files = read(line);
  for (std::size_t k = 0; k < files.size(); ++k) {
    if (k > 0 && !line.has("quiet")) print(stdout, "\n");
    check_one(files[k], line);
  }
  return 0;
}

}  // namespace

const Verb check_verb = {
    "check",
    "CASE.toml... [--out FILE] [--set KEY=VALUE]... [--full] [--quiet]",
    "look a case over and draw it, without solving it",
    options,
    more,
    check};

}  // namespace thinspot::io::cli
