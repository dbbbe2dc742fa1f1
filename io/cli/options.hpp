#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace thinspot::io::cli {

/// An option of a verb, without its two dashes.
struct Option {
  std::string_view name;
  std::string_view value;  ///< what stands for the value in the help; "": flag
  std::string_view help;
  bool repeatable = false;
};

/// A command line taken apart.
struct CommandLine {
  std::vector<std::string> operands;
  std::map<std::string, std::vector<std::string>, std::less<>> given;

  bool has(std::string_view option) const { return given.contains(option); }
  /// Value of an option that is not repeatable; "" where it was not given.
  std::string value(std::string_view option) const;
  std::vector<std::string> values(std::string_view option) const;
};

/// @throws InputError with the nearest option where one is unknown, and where
///         a value is missing, empty or too many.
CommandLine parse_options(std::string_view verb,
                          const std::vector<Option>& options,
                          const std::vector<std::string>& arguments);

/// The options with their help, one a line.
std::string options_help(const std::vector<Option>& options);

}  // namespace thinspot::io::cli
