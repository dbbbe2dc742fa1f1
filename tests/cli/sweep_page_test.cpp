// docs/sweep.md: its commands, their output, its tables and its queries.
#include "tests/cli/docs_pages.hpp"
#include "tests/cli/program.hpp"
#include "tests/scratch.hpp"
#include "tests/sqlite_rows.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <filesystem>
#include <set>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

using namespace thinspot::tests;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

using Rows = std::vector<std::vector<std::string>>;

std::string page() { return page_text("docs/sweep.md"); }

/// From a heading to the next one.
std::vector<std::string> lines_below(const std::string& heading) {
  std::vector<std::string> below;
  bool here = false;
  for (const std::string& line : lines_of(page())) {
    if (line.starts_with("#")) here = line == heading;
    if (here) below.push_back(line);
  }
  REQUIRE(below.size() > 2);
  return below;
}

/// Blocks below a heading that are set in by four spaces, without these.
std::vector<std::string> blocks_below(const std::string& heading) {
  std::vector<std::string> blocks;
  bool within = false, fenced = false;
  for (const std::string& line : lines_below(heading)) {
    if (line.starts_with("```")) fenced = !fenced;
    const bool set_in = !fenced && line.starts_with("    ");
    if (set_in && !within) blocks.emplace_back();
    if (set_in) blocks.back() += line.substr(4) + "\n";
    within = set_in;
  }
  return blocks;
}

/// Words in backquotes that begin the rows of the first table below a heading.
std::vector<std::string> names_below(const std::string& heading) {
  std::vector<std::string> names;
  bool begun = false;
  for (const std::string& line : lines_below(heading)) {
    if (begun && !line.starts_with("|")) break;
    begun = begun || line.starts_with("|");
    if (!line.starts_with("| `")) continue;
    const std::string cell = line.substr(2, line.find(" |", 2) - 2);
    for (std::size_t at = 0; (at = cell.find('`', at)) != std::string::npos;) {
      const std::size_t end = cell.find('`', at + 1);
      names.push_back(cell.substr(at + 1, end - at - 1));
      at = end + 1;
    }
  }
  REQUIRE(!names.empty());
  return names;
}

/// SQL between its fences, statement by statement.
std::vector<std::string> queries() {
  std::vector<std::string> all;
  for (const Block& block : blocks_of(page())) {
    if (block.kind != "sql") continue;
    std::string sql;
    for (const std::string& line : lines_of(block.text)) {
      sql += line + "\n";
      if (line.ends_with(";")) all.push_back(std::exchange(sql, ""));
    }
    CHECK(sql.empty());
  }
  return all;
}

std::vector<std::string> words_of(const std::string& line) {
  std::vector<std::string> words;
  std::istringstream in(line);
  for (std::string word; in >> word;) words.push_back(word);
  return words;
}

std::vector<std::string> first_of_each(const Rows& rows, std::size_t column) {
  std::vector<std::string> all;
  for (const auto& row : rows) all.push_back(row.at(column));
  return all;
}

/// What the page's lines for a shell do, in a folder that has the cases.
Run run_as_written(const Scratch& scratch, std::string command) {
  const auto at = command.find("thinspot ");
  REQUIRE(at == 0);
  std::error_code there;
  fs::create_directory_symlink(fs::path(THINSPOT_SOURCE) / "cases",
                               scratch / "cases", there);
  return shell(scratch.path(), "\"$THINSPOT\" " + command.substr(9));
}

void collect_keys(const nlohmann::json& node, std::set<std::string>& keys) {
  for (const auto& item : node.items()) {
    if (node.is_object()) keys.insert(item.key());
    // Whose keys are those of the case, and the database's columns.
    if (node.is_object() && (item.key() == "inputs" || item.key() == "outputs"))
      continue;
    if (item.value().is_structured()) collect_keys(item.value(), keys);
  }
}

}  // namespace

TEST_CASE("every option of a sweep is on its page, and no other", "[docs]") {
  const Scratch scratch;
  const Run run = run_thinspot(scratch.path(), {"sweep", "--help"});
  CHECK(run.status == 0);
  std::set<std::string> known, documented;
  for (const std::string& line : lines_of(run.out))
    if (line.starts_with("  --")) known.insert(words_of(line).front());
  for (const std::string& name : names_below("## Every option"))
    documented.insert(words_of(name).front());
  CHECK(known.size() > 10);
  CHECK(documented == known);
}

TEST_CASE("the example of docs/sweep.md prints what stands there", "[docs]") {
  const Scratch scratch;
  const std::vector<std::string> blocks = blocks_below("## An example");
  REQUIRE(blocks.size() == 2);
  const Run run = run_as_written(scratch, blocks[0]);
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
  CHECK(run.out == blocks[1]);

  const fs::path database = scratch / "gap_and_current/sweep.sqlite";
  SECTION("its queries can be asked") {
    CHECK(queries().size() > 5);
    for (const std::string& sql : queries()) {
      CAPTURE(sql);
      // Everything is done here: nothing went wrong.
      CHECK(table_of(database, sql).empty() ==
            (sql.find("status <> 'done'") != std::string::npos));
    }
  }
  SECTION("the answer that is shown is the database's") {
    const std::string shown = blocks_below("### Asking it").at(1);
    for (const std::string& sql : queries()) {
      if (sql.find("AS minutes") == std::string::npos) continue;
      const Rows rows = table_of(database, sql);
      const std::vector<std::string> lines = lines_of(shown);
      REQUIRE(lines.size() == rows.size() + 2);
      for (std::size_t k = 0; k < rows.size(); ++k)
        CHECK(words_of(lines[k + 2]) == rows[k]);
      return;
    }
    FAIL("the page has no such query");
  }
  SECTION("its tables have the columns that the page says") {
    for (const std::string table : {"columns", "runs", "points"}) {
      CAPTURE(table);
      std::vector<std::string> columns = first_of_each(
          table_of(database, "PRAGMA table_info(" + table + ")"), 1);
      // Then come those of the keys and the outputs.
      if (table == "points") columns.resize(5);
      CHECK(names_below("### Table " + table) == columns);
    }
    const auto keys =
        first_of_each(table_of(database, "SELECT key FROM sweep"), 0);
    const auto documented = names_below("### Table sweep");
    CHECK(std::set(documented.begin(), documented.end()) ==
          std::set(keys.begin(), keys.end()));
  }
  SECTION("every field of sweep.json is in the page on outputs") {
    std::string outputs =
        content(fs::path(THINSPOT_SOURCE) / "docs/outputs.md");
    const auto from = outputs.find("## The folder of a sweep");
    REQUIRE(from != std::string::npos);
    outputs = outputs.substr(from, outputs.find("\n## ", from + 1) - from);
    std::set<std::string> fields;
    collect_keys(
        nlohmann::json::parse(content(scratch / "gap_and_current/sweep.json")),
        fields);
    // Said with summary.json: of the program, and of each file.
    fields.erase("version");
    CHECK(fields.size() > 20);
    for (const std::string& field : fields) {
      CAPTURE(field);
      CHECK_THAT(outputs, Contains("`" + field + "`"));
    }
  }
}

TEST_CASE("the chosen point solves to what docs/sweep.md says", "[docs]") {
  const Scratch scratch;
  const Run run =
      run_as_written(scratch, blocks_below("### How to go on").front());
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
  CHECK_THAT(page(), Contains("12 µm, 10 to 13; chance of the target 98 %"));
  CHECK_THAT(run.out, Contains("12 µm (10 to 13)") && Contains("chance 98 %"));
}
