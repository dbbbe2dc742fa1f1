#include "io/cli/run.hpp"

#include "io/cli/terminal.hpp"
#include "io/cli/verb.hpp"
#include "io/nearest.hpp"
#include "io/program.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io::cli {

namespace {

/// Every verb, in the order of the help.
const std::vector<const Verb*>& verbs() {
  static const std::vector<const Verb*> table = {
      &new_verb,     &check_verb, &solve_verb, &plan_verb, &fit_verb,
      &compare_verb, &sweep_verb, &bath_verb,  &view_verb,
  };
  return table;
}

std::string help() {
  std::string text =
      "thinspot tells how evenly a small part will plate, before it goes into\n"
      "the solution: thickness over its section, thin and heavy spots, and "
      "how\n"
      "long the thinnest spot needs.\n\n";
  for (const Verb* verb : verbs())
    text += fmt::format("  thinspot {} {}\n      {}\n", verb->name, verb->use,
                        verb->purpose);
  text +=
      "  thinspot --version\n"
      "\nthinspot VERB --help tells more about a verb.\n"
      "Exit status: 0 done, 1 target not met (with --strict), 2 bad input,\n"
      "3 could not write, 4 no result.\n";
  return text;
}

std::string version() {
  const std::string_view verified = program_verified();
  return fmt::format("{} {}, {}\n", program_name, program_version(),
                     verified.empty() ? std::string("not verified")
                                      : fmt::format("verified {}", verified));
}

InputError unknown_verb(const std::string& word) {
  std::vector<std::string> names;
  for (const Verb* verb : verbs()) names.emplace_back(verb->name);
  if (word.ends_with(".toml"))
    return {word, "is no verb", "write: thinspot solve " + word};
  const auto near = nearest(word, names);
  return {word, "is no verb of thinspot",
          near ? "nearest: " + *near : "thinspot --help lists them"};
}

}  // namespace

int run(const std::vector<std::string>& arguments) {
  if (arguments.empty())
    throw InputError("", "nothing to do was given",
                     "write: thinspot solve CASE.toml, or thinspot --help");
  const std::string& word = arguments.front();
  if (word == "--help" || word == "-h" || word == "help") {
    print(stdout, help());
    return 0;
  }
  if (word == "--version") {
    print(stdout, version());
    return 0;
  }
  const auto verb =
      std::find_if(verbs().begin(), verbs().end(),
                   [&](const Verb* v) { return v->name == word; });
  if (verb == verbs().end()) throw unknown_verb(word);
  return (*verb)->run({arguments.begin() + 1, arguments.end()});
}

}  // namespace thinspot::io::cli
