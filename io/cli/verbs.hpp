#pragma once

#include "io/cli/verb.hpp"

#include <string_view>
#include <vector>

namespace thinspot::io::cli {

/// Every verb, in the order of the help.
const std::vector<const Verb*>& all_verbs();

/// What the program is for, and its exit statuses: the same in its help and its
/// manual page, line breaks as a terminal shows them.
extern const std::string_view program_purpose;
extern const std::string_view exit_statuses;

}  // namespace thinspot::io::cli
