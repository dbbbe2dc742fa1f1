#pragma once

#include "io/case_file.hpp"
#include "io/cli/options.hpp"
#include "io/planned_case.hpp"
#include "solver/layers.hpp"
#include "solver/result.hpp"
#include "solver/simulate.hpp"

#include <map>
#include <string>
#include <vector>

namespace thinspot::io::cli {

/// Reads every case file that a command line names, with what --set says of
/// it: "key=value" where there is one file, "2:key=value" where there are more.
/// @param of_each  overrides for every one of them
/// @throws InputError with the problems of all files.
std::vector<CaseFile> read_cases(const CommandLine& line,
                                 const std::vector<std::string>& of_each = {});

/// The contents alone, in their order.
std::vector<solver::Case> contents(const std::vector<CaseFile>& files);

/// Solves them, several as layers on one part.
/// @throws InputError with file and line, NoResultError.
solver::Result simulated(const std::vector<CaseFile>& files,
                         const solver::Progress& progress = {},
                         const solver::Wanted& wanted = {});

/// The bytes of drawings that new case files name, by their new names.
/// @throws InputError where one cannot be read any more.
std::map<std::string, std::string> bytes_of(
    const std::vector<CopiedDrawing>& drawings);

/// An error of one of the layers, with its file and line.
InputError located(const solver::LayerError& error,
                   const std::vector<CaseFile>& files);

}  // namespace thinspot::io::cli
