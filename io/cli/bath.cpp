#include "io/bath_dissolving.hpp"
#include "io/bath_json.hpp"
#include "io/bath_plan.hpp"
#include "io/bath_words.hpp"
#include "io/cli/case_files.hpp"
#include "io/cli/options.hpp"
#include "io/cli/terminal.hpp"
#include "io/cli/verb.hpp"
#include "io/cli/wrap.hpp"
#include "io/units.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>

#include <optional>
#include <string>

namespace thinspot::io::cli {

namespace {

const std::vector<Option> options = {
    {"solution", "NAME", "of the library, in place of a case"},
    {"volume", "VOLUME", "of the solution, as in \"500 ml\""},
    {"dissolve", "METAL", "make a metal's salt from an anode by current"},
    {"into", "ACID", "what it dissolves into; left out: acetic acid"},
    {"current", "CURRENT", "for --dissolve, as in \"0.3 A\""},
    {"time", "TIME", "for --dissolve, as in \"4 h\""},
    {"set", "KEY=VALUE", "override a key of the case; any number", true},
    {"json", "", "print numbers, as JSON"},
    {"help", "", "this text"},
};

std::string more() {
  return "Nothing is solved: currents that the case does not set are "
         "estimates.\n";
}

/// The value of an option as a quantity above nothing.
std::optional<double> quantity(const CommandLine& line, std::string_view option,
                               Dimension dimension) {
  if (!line.has(option)) return std::nullopt;
  const std::string shown = "--" + std::string(option);
  const std::string mend =
      fmt::format("write: {} \"{}\"", shown, dimension_example(dimension));
  try {
    const ParsedQuantity read = parse_quantity(line.value(option), dimension);
    if (read.value > 0 && read.plus_minus == 0) return read.value;
  } catch (const InputError& error) {
    const Problem& p = error.problems().front();
    throw InputError(shown, p.wrong, p.mend);
  }
  throw InputError(shown, "is not one value above nothing", mend);
}

/// Options of one way beside another.
void refuse(const CommandLine& line, const std::vector<std::string_view>& none,
            std::string_view beside) {
  for (std::string_view option : none)
    if (line.has(option))
      throw InputError("--" + std::string(option),
                       fmt::format("does not go with {}", beside),
                       "leave one of the two out");
}

std::vector<std::string> dissolving(const CommandLine& line) {
  refuse(line, {"solution", "set", "json"}, "--dissolve");
  if (!line.operands.empty())
    throw InputError(line.operands.front(), "does not go with --dissolve",
                     "leave the case out");
  DissolveOrder order{line.value("dissolve"), line.value("into"), 0, 0,
                      quantity(line, "volume", Dimension::volume)};
  const auto current = quantity(line, "current", Dimension::current);
  const auto time = quantity(line, "time", Dimension::duration);
  if (!current || !time)
    throw InputError(current ? "--time" : "--current", "is missing",
                     "write: thinspot bath --dissolve nickel --current \"0.3 "
                     "A\" --time \"4 h\"");
  order.current = *current;
  order.time = *time;
  return dissolving_in_words(order);
}

BathPlan of_case(const CommandLine& line) {
  if (line.operands.size() != 1)
    throw InputError("",
                     line.operands.empty() ? "no case file is given"
                                           : "more than one case is given",
                     "write: thinspot bath CASE.toml, or thinspot bath "
                     "--solution \"acid copper\" --volume \"500 ml\"");
  const CaseFile file = std::move(read_cases(line).front());
  try {
    return bath_of_case(file.content,
                        quantity(line, "volume", Dimension::volume));
  } catch (const InputError& error) {
    throw located(error, file);
  }
}

BathPlan planned(const CommandLine& line) {
  refuse(line, {"into", "current", "time"},
         "a case or solution: they serve "
         "with --dissolve");
  if (!line.has("solution")) return of_case(line);
  refuse(line, {"set"}, "--solution");
  if (!line.operands.empty())
    throw InputError(line.operands.front(), "does not go with --solution",
                     "leave one of the two out");
  return bath_of_entry(line.value("solution"),
                       quantity(line, "volume", Dimension::volume));
}

int bath(const std::vector<std::string>& arguments) {
  const CommandLine line = parse_options(bath_verb.name, options, arguments);
  if (line.has("help")) {
    print(stdout, help_of(bath_verb));
    return 0;
  }
  std::vector<std::string> lines;
  if (line.has("dissolve")) {
    lines = dissolving(line);
  } else {
    const BathPlan plan = planned(line);
    if (line.has("json")) {
      print(stdout, bath_json(plan));
      return 0;
    }
    lines = bath_in_words(plan);
  }
  std::string text;
  // Blanks stand where a label goes on; wrapping would swallow them.
  for (std::string entry : lines) {
    const bool goes_on = entry.starts_with(' ');
    if (goes_on) entry.replace(0, 9, 9, '#');
    entry = wrapped(entry, 10);
    if (goes_on) entry.replace(0, 9, 9, ' ');
    text += entry;
  }
  print(stdout, text);
  return 0;
}

}  // namespace

const Verb bath_verb = {
    "bath",
    "CASE.toml [--set KEY=VALUE]... [--json] |\n"
    "                 --solution NAME [--volume VOLUME] |\n"
    "                 --dissolve METAL --current CURRENT --time TIME [--into "
    "ACID]",
    "make a solution up, what plating takes out of it, how long anodes last",
    options,
    more,
    bath};

}  // namespace thinspot::io::cli
