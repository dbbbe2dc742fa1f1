#pragma once

#include "io/comparison_words.hpp"
#include "io/readings_words.hpp"

#include <filesystem>
#include <string>

namespace thinspot::io::cli {

/// What a comparison of two results says on a terminal, at most 40 lines: the
/// verdict first, then the table, the places, and where the files are.
std::string compare_summary(const solver::KeptResult& a,
                            const solver::KeptResult& b,
                            const ComparisonWords& words,
                            const std::filesystem::path& folder);

/// The same of a result against readings.
std::string readings_summary(const solver::KeptResult& kept,
                             const std::string& file,
                             const ReadingsWords& words,
                             const std::filesystem::path& folder);

}  // namespace thinspot::io::cli
