#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace thinspot::tests {

/// What the built program did, as its user sees it.
struct Run {
  int status = 0;  ///< 124 where it was ended after a minute
  std::string out;
  std::string err;
};

/// Runs the built program in a folder.
Run run_thinspot(const std::filesystem::path& folder,
                 const std::vector<std::string>& arguments);

/// Runs a line of bash in a folder, with $THINSPOT naming the program.
Run shell(const std::filesystem::path& folder, const std::string& line);

/// Whether the program takes what sanitizers do: terabytes of addresses, a
/// process and a pipe of their own.
bool sanitized();

/// For a shell: leaks are not looked for. Some libraries of third parties are
/// let go of before the look, and what they leak has no name to pass by.
inline constexpr const char* kWithoutLeaks =
    "export ASAN_OPTIONS=\"${ASAN_OPTIONS:-}:detect_leaks=0\"\n";

std::vector<std::string> lines_of(const std::string& text);

/// A sound case, kept here whole so that the tests know its lines: a token, one
/// sheet, target met.
std::string sound_case();

/// That case with little for a plan to look for.
std::string quick_to_plan();

/// That case with one text put in place of another, which must be in it once.
std::string edited(const std::string& from, const std::string& to);

}  // namespace thinspot::tests
