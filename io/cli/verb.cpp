#include "io/cli/verb.hpp"

#include <fmt/format.h>

namespace thinspot::io::cli {

std::string help_of(const Verb& verb) {
  return fmt::format("thinspot {} {}\n{}.\n\n{}\n{}", verb.name, verb.use,
                     verb.purpose, options_help(verb.options), verb.more());
}

}  // namespace thinspot::io::cli
