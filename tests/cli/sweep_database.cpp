#include "tests/cli/sweep_database.hpp"

#include <sqlite3.h>
#include <catch2/catch.hpp>

namespace thinspot::tests {

std::string asked(const std::string& file, const std::string& query) {
  sqlite3* database = nullptr;
  REQUIRE(sqlite3_open(file.c_str(), &database) == SQLITE_OK);
  sqlite3_stmt* statement = nullptr;
  INFO(query);
  REQUIRE(sqlite3_prepare_v2(database, query.c_str(), -1, &statement,
                             nullptr) == SQLITE_OK);
  std::string cell;
  if (sqlite3_step(statement) == SQLITE_ROW)
    if (const auto* text = sqlite3_column_text(statement, 0))
      cell = reinterpret_cast<const char*>(text);
  sqlite3_finalize(statement);
  sqlite3_close(database);
  return cell;
}

}  // namespace thinspot::tests
