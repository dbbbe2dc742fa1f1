#pragma once

#include "io/cli/options.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace thinspot::io::cli {

/// One thing that the program does. Adding a verb is writing its file and
/// putting it into the table in verbs.cpp.
struct Verb {
  std::string_view name;
  std::string_view use;      ///< what follows the name on the command line
  std::string_view purpose;  ///< one line of the help
  const std::vector<Option>& options;
  std::string (*more)();  ///< what its help says below the options
  /// @returns the exit status
  /// @throws InputError, OutputError, NoResultError
  int (*run)(const std::vector<std::string>& arguments);
};

extern const Verb bath_verb;     ///< bath.cpp
extern const Verb check_verb;    ///< check.cpp
extern const Verb compare_verb;  ///< compare.cpp
extern const Verb fit_verb;      ///< fit.cpp
extern const Verb new_verb;      ///< new.cpp
extern const Verb plan_verb;     ///< plan.cpp
extern const Verb solve_verb;    ///< solve.cpp
extern const Verb sweep_verb;    ///< sweep.cpp
extern const Verb view_verb;     ///< view.cpp

/// What `thinspot VERB --help` prints.
std::string help_of(const Verb& verb);

}  // namespace thinspot::io::cli
