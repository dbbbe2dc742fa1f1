#pragma once

#include "io/output_folder.hpp"
#include "io/words.hpp"
#include "solver/result.hpp"

#include <string>
#include <vector>

namespace thinspot::io {

/// Text of the summary, without the list of files and the times: the same
/// bytes for the same input. What the page is made from. Every field and its
/// unit: docs/outputs.md.
/// @throws NoResultError where a number is not finite, naming its field.
std::string summary_json(const solver::Result& result, const Words& words);

/// The same with the files written beside it and the seconds taken: what
/// stands in summary.json.
/// @throws NoResultError likewise.
std::string summary_json(const solver::Result& result, const Words& words,
                         const std::vector<WrittenFile>& files);

}  // namespace thinspot::io
