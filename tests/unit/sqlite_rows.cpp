#include "tests/unit/sqlite_rows.hpp"

#include <sqlite3.h>
#include <catch2/catch.hpp>

namespace thinspot::tests {

std::vector<std::string> rows_of(const std::filesystem::path& database,
                                 const std::string& query) {
  CAPTURE(query);
  sqlite3* opened = nullptr;
  REQUIRE(sqlite3_open(database.c_str(), &opened) == SQLITE_OK);
  std::vector<std::string> rows;
  const auto take = [](void* to, int count, char** values, char**) {
    std::string row;
    for (int k = 0; k < count; ++k)
      row += (k > 0 ? "|" : "") + std::string(values[k] ? values[k] : "NULL");
    static_cast<std::vector<std::string>*>(to)->push_back(row);
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

std::string row_of(const std::filesystem::path& database,
                   const std::string& query) {
  const std::vector<std::string> rows = rows_of(database, query);
  REQUIRE(rows.size() == 1);
  return rows.front();
}

}  // namespace thinspot::tests
