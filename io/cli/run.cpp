#include "io/cli/run.hpp"

#include "io/cli/completion.hpp"
#include "io/cli/manual.hpp"
#include "io/cli/terminal.hpp"
#include "io/cli/verbs.hpp"
#include "io/nearest.hpp"
#include "io/program.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io::cli {

namespace {

std::string help() {
  std::string text = std::string(program_purpose) + "\n";
  for (const Verb* verb : all_verbs())
    text += fmt::format("  thinspot {} {}\n      {}\n", verb->name, verb->use,
                        verb->purpose);
  text +=
      "  thinspot --version | --manual | --completion\n"
      "      print the version, the manual page for man -l -, a script for "
      "bash\n"
      "\nthinspot VERB --help tells more about a verb.\n";
  return text + std::string(exit_statuses);
}

std::string version() {
  const std::string_view verified = program_verified();
  return fmt::format("{} {}, {}\n", program_name, program_version(),
                     verified.empty() ? std::string("not verified")
                                      : fmt::format("verified {}", verified));
}

InputError unknown_verb(const std::string& word) {
  std::vector<std::string> names;
  for (const Verb* verb : all_verbs()) names.emplace_back(verb->name);
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
  if (word == "--manual" || word == "--completion") {
    print(stdout, word == "--manual" ? manual_page() : bash_completion());
    return 0;
  }
  const auto verb =
      std::find_if(all_verbs().begin(), all_verbs().end(),
                   [&](const Verb* v) { return v->name == word; });
  if (verb == all_verbs().end()) throw unknown_verb(word);
  return (*verb)->run({arguments.begin() + 1, arguments.end()});
}

}  // namespace thinspot::io::cli
