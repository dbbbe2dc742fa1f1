#pragma once

#include "io/case_file.hpp"

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace thinspot::tests {

/// A small sound case: a coin and one sheet in a box, every line of it known
/// to the tests.
std::string sound_case();

/// The text with one piece, which must be in it, replaced.
std::string with(std::string text, std::string_view piece,
                 std::string_view replacement);

/// The text with lines put before its [cathode].
std::string and_also(const std::string& lines, std::string text = sound_case());

/// A file in the folder that the cases are read from.
void put_beside_case(const std::string& name, const std::string& content);

/// That folder.
std::filesystem::path case_folder();

/// Reads the text as a file called case.toml.
io::CaseFile read_text(const std::string& text,
                       const std::vector<std::string>& overrides = {});

/// What is wrong with it, one line each: "place: key: wrong; mend", where the
/// place is without its folder. Empty where nothing is.
std::vector<std::string> problems_in(
    const std::string& text, const std::vector<std::string>& overrides = {});

/// The only problem; fails the test where there is not exactly one.
std::string only_problem(const std::string& text,
                         const std::vector<std::string>& overrides = {});

}  // namespace thinspot::tests
