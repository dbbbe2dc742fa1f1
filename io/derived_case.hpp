#pragma once

#include "io/document.hpp"
#include "io/planned_case.hpp"

#include <string>
#include <string_view>
#include <vector>

// What case files that are written from a case file share.
namespace thinspot::io {

/// A file that this program wrote from another starts so.
inline constexpr std::string_view kMadeBy = "# Made by thinspot ";

/// The text without the head that this program put there earlier.
std::string_view own_text(std::string_view text);

/// The document with --set done.
Node overridden(const Node& root, const std::vector<std::string>& overrides);

/// The text with the document changed; it says just that.
/// @throws NoResultError where the text is laid out so that it cannot.
std::string checked_text(const DrawnCase& drawn, std::string_view text,
                         const Node& from, const Node& to);

/// What such a text says as a case.
/// @throws NoResultError where it cannot be read.
solver::Case read_back(const DrawnCase& drawn, const std::string& text);

/// A line for every drawing that a case names, with a sum over its bytes: it
/// tells whether any has changed. What cannot be read has none.
std::string sums_of_drawings(const Node& root,
                             const std::filesystem::path& folder);

/// Drawings lie beside the new file, whichever folder they were in: their names
/// in the document are changed to that.
std::vector<CopiedDrawing> gather_drawings(Node& root,
                                           const std::filesystem::path& folder);

/// @throws NoResultError always, saying what cannot be written.
[[noreturn]] void cannot_write(const DrawnCase& drawn, const std::string& what);

}  // namespace thinspot::io
