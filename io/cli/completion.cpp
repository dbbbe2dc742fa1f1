#include "io/cli/completion.hpp"

#include "io/cli/verbs.hpp"
#include "io/starter_case.hpp"

#include <fmt/format.h>

namespace thinspot::io::cli {

namespace {

constexpr std::string_view kHead = R"(# bash completion for thinspot
_thinspot_files() {  # WORD [ENDING]: folders, and files that end so
  compopt -o filenames 2>/dev/null
  local name
  while IFS= read -r name; do
    [[ -d $name || $# -lt 2 || $name == *"$2" ]] && COMPREPLY+=("$name")
  done < <(compgen -f -- "$1")
}

_thinspot_words() {  # WORD CHOICES: those that begin so
  mapfile -t COMPREPLY < <(compgen -W "$2" -- "$1")
}

_thinspot() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]}
  COMPREPLY=()
)";

constexpr std::string_view kTail = R"(}
complete -F _thinspot thinspot
)";

bool names(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

/// The command of bash that completes a value that the help calls so; none
/// where only its user knows it.
std::string completed(std::string_view value) {
  if (names(value, "SHAPE")) {
    std::string shapes;
    for (const std::string& name : starter_names()) shapes += name + ' ';
    return fmt::format("_thinspot_words \"$word\" '{}'", shapes);
  }
  if (names(value, ".toml") && !names(value, ".csv"))
    return "_thinspot_files \"$word\" .toml";
  if (value == "DIR") return "_thinspot_files \"$word\" /";
  if (names(value, "FILE") || names(value, ".csv"))
    return "_thinspot_files \"$word\"";
  return ":";
}

/// Options whose value is completed alike, and those whose value is not.
std::string values_of(const Verb& verb) {
  std::string text;
  for (const Option& o : verb.options)
    if (!o.value.empty())
      text += fmt::format("        --{}) {} ;;\n", o.name, completed(o.value));
  return text;
}

std::string case_of(const Verb& verb) {
  std::string options;
  for (const Option& o : verb.options) options += fmt::format("--{} ", o.name);
  return fmt::format(
      "    {})\n      case $before in\n{}        *)\n"
      "          if [[ $word == -* ]]; then\n"
      "            _thinspot_words \"$word\" '{}'\n"
      "          else\n            {}\n          fi\n          ;;\n"
      "      esac\n      ;;\n",
      verb.name, values_of(verb), options,
      completed(verb.use.substr(0, verb.use.find(" ["))));
}

}  // namespace

std::string bash_completion() {
  std::string all = "--help --version ", cases;
  for (const Verb* verb : all_verbs()) {
    all += fmt::format("{} ", verb->name);
    cases += case_of(*verb);
  }
  return fmt::format(
      "{}  if ((COMP_CWORD == 1)); then\n"
      "    _thinspot_words \"$word\" '{}'\n    return\n  fi\n"
      "  case ${{COMP_WORDS[1]}} in\n{}  esac\n{}",
      kHead, all, cases, kTail);
}

}  // namespace thinspot::io::cli
