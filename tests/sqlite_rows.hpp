#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace thinspot::tests {

/// Cells of the rows that a query gives, if any, "NULL" where there is none; as
/// an independent reader of the file sees them. Fails the test where it cannot
/// be asked.
std::vector<std::vector<std::string>> table_of(
    const std::filesystem::path& database, const std::string& query);

/// The same rows, columns parted by "|".
std::vector<std::string> rows_of(const std::filesystem::path& database,
                                 const std::string& query);

/// The only row.
std::string row_of(const std::filesystem::path& database,
                   const std::string& query);

}  // namespace thinspot::tests
