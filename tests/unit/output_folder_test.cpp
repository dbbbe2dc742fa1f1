#include "io/output_folder.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>

using namespace thinspot::io;
using namespace thinspot::tests;
namespace fs = std::filesystem;

TEST_CASE("a new folder takes files and counts them", "[output_folder]") {
  const Scratch scratch;
  OutputFolder folder(scratch / "deep/down");
  CHECK_FALSE(fs::exists(scratch / "deep"));
  folder.begin();
  folder.write("a.txt", "hello");
  CHECK(content(scratch / "deep/down/a.txt") == "hello");
  REQUIRE(folder.written().size() == 1);
  CHECK(folder.written()[0].name == "a.txt");
  CHECK(folder.written()[0].bytes == 5);
}

TEST_CASE("a folder of somebody else's is left alone", "[output_folder]") {
  const Scratch scratch;
  fs::create_directory(scratch / "mine");
  put(scratch / "mine/letter.txt", "dear");
  CHECK_THROWS_AS(OutputFolder(scratch / "mine"), OutputError);
  put(scratch / "mine/summary.json", R"({"program": {"name": "other"}})");
  CHECK_THROWS_AS(OutputFolder(scratch / "mine"), OutputError);
  put(scratch / "mine/summary.json", R"({"program": "thinspot"})");
  CHECK_THROWS_AS(OutputFolder(scratch / "mine"), OutputError);
  put(scratch / "mine/summary.json", "{");
  CHECK_THROWS_AS(OutputFolder(scratch / "mine"), OutputError);
  put(scratch / "mine/summary.json", R"({"program": {"name": 7}})");
  CHECK_THROWS_AS(OutputFolder(scratch / "mine"), OutputError);
  CHECK(content(scratch / "mine/letter.txt") == "dear");
}

TEST_CASE("our own folder is used again, empty ones too", "[output_folder]") {
  const Scratch scratch;
  fs::create_directory(scratch / "old");
  CHECK_NOTHROW(OutputFolder(scratch / "old"));
  put(scratch / "old/summary.json", R"({"program": {"name": "thinspot"}})");
  OutputFolder folder(scratch / "old");
  CHECK(fs::exists(scratch / "old/summary.json"));
  folder.begin();
  CHECK_FALSE(fs::exists(scratch / "old/summary.json"));
  // Cut short here, the folder is still known as ours.
  CHECK_NOTHROW(OutputFolder(scratch / "old"));
}

TEST_CASE("two runs do not write one folder at once", "[output_folder]") {
  const Scratch scratch;
  {
    OutputFolder first(scratch / "out");
    first.begin();
    OutputFolder second(scratch / "out");
    CHECK_THROWS_AS(second.begin(), OutputError);
  }
  OutputFolder third(scratch / "out");
  CHECK_NOTHROW(third.begin());
}

TEST_CASE("what cannot be written leaves no scrap", "[output_folder]") {
  const Scratch scratch;
  {
    OutputFolder folder(scratch / "out");
    folder.begin();
    fs::create_directories(scratch / "out/a.txt/inside");
    CHECK_THROWS_AS(folder.write("a.txt", "hello"), OutputError);
  }
  CHECK_FALSE(fs::exists(scratch / "out/.a.txt.tmp"));
  put(scratch / "file", "");
  CHECK_THROWS_AS(OutputFolder(scratch / "file"), OutputError);
  CHECK_THROWS_AS(OutputFolder(scratch / "file/under"), OutputError);
}

TEST_CASE("results lie beside the case by default", "[output_folder]") {
  CHECK(default_output_folder("cases/coin.toml") == "cases/coin-out");
  CHECK(default_output_folder("coin.toml") == "coin-out");
}
