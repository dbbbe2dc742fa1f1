#pragma once

#include "io/fit_words.hpp"
#include "io/output_folder.hpp"
#include "solver/fit.hpp"

#include <string>
#include <vector>

namespace thinspot::io {

/// Name of the file that comes last in a fit's folder.
inline constexpr std::string_view fit_name = "fit.json";

/// All of a fit, as docs/outputs.md has it.
/// @param fragment  to be pasted
/// @param written   files beside it
/// @throws NoResultError where a figure is not finite.
std::string fit_json(const solver::Fit& fit, const FitWords& words,
                     const std::string& fragment,
                     const std::vector<WrittenFile>& written);

}  // namespace thinspot::io
