#include "tests/sqlite_rows.hpp"

#include <sqlite3.h>
#include <catch2/catch.hpp>

namespace thinspot::tests {

using Table = std::vector<std::vector<std::string>>;

Table table_of(const std::filesystem::path& database,
               const std::string& query) {
  CAPTURE(query);
  sqlite3* opened = nullptr;
  REQUIRE(sqlite3_open(database.c_str(), &opened) == SQLITE_OK);
  Table rows;
  const auto take = [](void* to, int count, char** values, char**) {
    auto& row = static_cast<Table*>(to)->emplace_back();
    for (int k = 0; k < count; ++k)
      row.emplace_back(values[k] ? values[k] : "NULL");
    return 0;
  };
  char* wrong = nullptr;
  const int code = sqlite3_exec(opened, query.c_str(), take, &rows, &wrong);
  CAPTURE(wrong ? wrong : "");
  sqlite3_free(wrong);
  sqlite3_close(opened);
  REQUIRE(code == SQLITE_OK);
  return rows;
}

std::vector<std::string> rows_of(const std::filesystem::path& database,
                                 const std::string& query) {
  std::vector<std::string> rows;
  for (const auto& cells : table_of(database, query)) {
    std::string& row = rows.emplace_back();
    for (std::size_t k = 0; k < cells.size(); ++k)
      row += (k > 0 ? "|" : "") + cells[k];
  }
  return rows;
}

std::string row_of(const std::filesystem::path& database,
                   const std::string& query) {
  const std::vector<std::string> rows = rows_of(database, query);
  REQUIRE(rows.size() == 1);
  return rows.front();
}

}  // namespace thinspot::tests
