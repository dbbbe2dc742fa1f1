#pragma once

#include "io/fit_words.hpp"
#include "io/fitted_case.hpp"
#include "solver/fit.hpp"

#include <filesystem>
#include <string>

namespace thinspot::io::cli {

/// What a fit shows: the picture and the page that the folder gets, and what
/// stands on the terminal.
struct FitReport {
  std::string residuals;  ///< SVG
  std::string page;       ///< HTML
};
FitReport fit_report(const solver::Fit& fit, const FitWords& words,
                     const FittedCase& written);

/// At most 40 lines.
std::string fit_summary(const solver::Fit& fit, const FitWords& words,
                        const FittedCase& written,
                        const std::filesystem::path& folder);

/// The same with its verdict in bold.
void print_fit(const solver::Fit& fit, const FitWords& words,
               const FittedCase& written, const std::filesystem::path& folder);

}  // namespace thinspot::io::cli
