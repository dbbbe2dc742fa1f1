#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace thinspot::tests {

/// How a line is run on a terminal.
struct OnTerminal {
  int columns = 80;
  std::string type = "xterm";
  /// As in the environment: "NO_COLOR=1".
  std::vector<std::string> environment;
  /// What is typed once, when this was written.
  std::string waits_for;
  std::function<std::string()> typed;
};

/// What came of it.
struct Shown {
  int status = 0;      ///< 128 and the signal where one ended it
  std::string bytes;   ///< all that was written to the terminal
  double seconds = 0;  ///< it took
};

/// Runs a line of bash in a folder, with $THINSPOT naming the program, standard
/// input, output and error a terminal of its own.
Shown run_on_terminal(const std::filesystem::path& folder,
                      const std::string& line, const OnTerminal& how = {});

/// Lines that stand on a terminal in the end, blanks at their ends apart. It
/// knows line breaks, returns, "\x1b[J" and "\x1b[K" for all that follows, and
/// bold and colour; anything else that is no text fails the test.
/// @param widest  set to the most columns that ever stood in a line
std::vector<std::string> screen_of(const std::string& bytes,
                                   std::size_t* widest = nullptr);

}  // namespace thinspot::tests
