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

/// What may be said of how a reading was taken.
struct ReadingMethod {
  std::string_view name;    ///< "section"
  std::string_view said;    ///< "microscope section, ISO 1463"
  solver::Reading::Of of;   ///< what it reads
  double least = 0;         ///< half width of its 95 % interval, at least
                            ///< [V], [A], [kg], [m]; of a ratio 1
  double share = 0;         ///< and at least this share of the value
  std::string_view source;  ///< of both
};
const std::vector<ReadingMethod>& reading_methods();

}  // namespace thinspot::io
