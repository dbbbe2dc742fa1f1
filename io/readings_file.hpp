#pragma once

#include "solver/reading.hpp"

#include <filesystem>
#include <string_view>
#include <vector>

namespace thinspot::io {

/// Reads what was measured at the bench: comma-separated values with a line of
/// names on top, as docs/fitting.md has it. Lines that are blank or start with
/// # are left out. Where nothing is said of how sure a reading is, what is
/// usual for its method is taken.
/// @throws InputError with every problem, each with file and line: a missing,
///         huge or empty file, columns that are not known, values without a
///         unit, of another dimension or beyond reason.
std::vector<solver::Reading> read_readings(const std::filesystem::path& file);

/// The same of a text that stands in that file.
std::vector<solver::Reading> read_readings_text(
    std::string_view text, const std::filesystem::path& file);

}  // namespace thinspot::io
