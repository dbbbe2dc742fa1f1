#pragma once

#include "io/comparison_words.hpp"
#include "io/output_folder.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace thinspot::io {

/// Name of the file that comes last.
inline constexpr std::string_view comparison_name = "compare.json";

/// compare.csv: one row a point of the first result's plated surface.
std::string comparison_csv(const solver::KeptResult& a,
                           const solver::Comparison& comparison);

/// compare.json. Fields: docs/outputs.md.
/// @param files  what was written beside it
/// @throws NoResultError where a number is not finite
std::string comparison_json(const solver::KeptResult& a,
                            const solver::KeptResult& b,
                            const solver::Comparison& comparison,
                            const ComparisonWords& words,
                            const std::vector<WrittenFile>& files = {});

}  // namespace thinspot::io
