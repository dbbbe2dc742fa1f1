#pragma once

#include "io/document.hpp"
#include "mesh/errors.hpp"
#include "solver/case.hpp"

#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace thinspot::io {

/// A case file read and resolved: SI units, defaults filled in and listed.
struct CaseFile {
  solver::Case content;
  std::string path;                  ///< as the user wrote it
  std::map<std::string, int> lines;  ///< key address -> line
};

/// @param overrides  "key=value" as given to --set.
/// @throws InputError with every problem found, each with its place.
CaseFile read_case(const std::filesystem::path& file,
                   const std::vector<std::string>& overrides = {});

/// The same of a document that was read from that file already, for those who
/// read it with one set of overrides after another; drawings are read anew.
/// @throws InputError likewise.
CaseFile read_case(const Node& document, const std::filesystem::path& file,
                   const std::vector<std::string>& overrides);

/// The same of a text that stands, or is to stand, in that file; drawings are
/// looked for in its folder.
/// @throws InputError likewise.
CaseFile read_case_text(std::string_view text,
                        const std::filesystem::path& file);

/// Adds file and line to the problems that were found after reading.
InputError located(const InputError& error, const CaseFile& file);

}  // namespace thinspot::io
