#pragma once

#include "io/comparison_words.hpp"

#include <filesystem>
#include <string>

namespace thinspot::io::cli {

/// What a comparison of two results says on a terminal, at most 40 lines: the
/// verdict first, then the table, the places, and where the files are.
std::string compare_summary(const solver::KeptResult& a,
                            const solver::KeptResult& b,
                            const ComparisonWords& words,
                            const std::filesystem::path& folder);

}  // namespace thinspot::io::cli
