#pragma once

#include "table.hpp"

#include <array>
#include <string>
#include <vector>

namespace thinspot::tests {

/// The cells of a row as they stand on the page.
using PrintedRow = std::array<std::string, 8>;

/// The page as Markdown.
/// @param verified  its head line: when, and at which commit
std::string table_page(const std::vector<Row>& rows,
                       const std::string& verified);

/// The rows of such a page; cells left empty are as in the row above.
std::vector<PrintedRow> read_table_page(const std::string& page);

/// In what a page of today differs from the documented one, one line each:
/// rows that only one has, other sources or exact values, computed values
/// further apart than the documented bar. Last digits are the machine's.
std::vector<std::string> table_differences(
    const std::vector<PrintedRow>& documented,
    const std::vector<PrintedRow>& today);

}  // namespace thinspot::tests
