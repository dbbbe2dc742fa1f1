#include "io/cli/verbs.hpp"

namespace thinspot::io::cli {

const std::string_view program_purpose =
    "thinspot tells how evenly a small part will plate, before it goes into\n"
    "the solution: thickness over its section, thin and heavy spots, and how\n"
    "long the thinnest spot needs.\n";

const std::string_view exit_statuses =
    "Exit status: 0 done, 1 target not met (with --strict), 2 bad input,\n"
    "3 could not write, 4 no result.\n";

const std::vector<const Verb*>& all_verbs() {
  static const std::vector<const Verb*> table = {
      &new_verb,     &check_verb, &solve_verb, &plan_verb, &fit_verb,
      &compare_verb, &sweep_verb, &bath_verb,  &view_verb,
  };
  return table;
}

}  // namespace thinspot::io::cli
