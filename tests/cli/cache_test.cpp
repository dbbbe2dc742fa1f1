// What is kept from run to run: the same results, sooner.

#include "tests/cli/program.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>

#include <sys/stat.h>

#include <filesystem>
#include <map>
#include <string>

using namespace thinspot::tests;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// Solves in an environment; a folder `cache` of the scratch is its own.
Run solve(const Scratch& scratch, const std::string& arguments,
          const std::string& environment = "XDG_CACHE_HOME=\"$PWD/cache\"") {
  return shell(scratch.path(), "exec env " + environment +
                                   " \"$THINSPOT\" solve case.toml "
                                   "--quiet " +
                                   arguments);
}

/// All that was written, by name, but for what tells how long it took.
std::map<std::string, std::string> written(const fs::path& folder) {
  std::map<std::string, std::string> files = files_of(folder);
  for (auto& [name, text] : files)
    for (std::size_t at = 0;
         (at = text.find("\"time_s\"", at)) != std::string::npos;)
      text.erase(at, text.find('}', at) - at);
  return files;
}

/// A clip in the part: solids touch, so that a boolean is asked for too.
std::string touching_case() {
  return sound_case() + R"(
[[clip]]
name = "top"
shape = "plate"
width = "1 mm"
height = "20 mm"
at = ["45 mm", "74.9 mm"]
)";
}

}  // namespace

TEST_CASE("results are the same to the byte, kept or not") {
  const Scratch scratch;
  for (const std::string& text : {sound_case(), touching_case()}) {
    put(scratch / "case.toml", text);
    REQUIRE(solve(scratch, "--no-cache --out anew").status == 0);
    CHECK_FALSE(fs::exists(scratch / "cache"));
    REQUIRE(solve(scratch, "--out first").status == 0);
    const std::size_t kept = names_in(scratch / "cache/thinspot").size();
    CHECK(kept > 0);
    REQUIRE(solve(scratch, "--out again").status == 0);
    CHECK(names_in(scratch / "cache/thinspot").size() == kept);
    const auto anew = written(scratch / "anew");
    CHECK(anew.size() > 5);
    for (const char* other : {"first", "again"}) {
      const auto now = written(scratch / other);
      REQUIRE(now.size() == anew.size());
      for (const auto& [name, bytes] : anew) {
        CAPTURE(other, name);
        CHECK((now.at(name) == bytes));
      }
    }
    fs::remove_all(scratch / "cache");
  }
}

TEST_CASE("a case with another current or time loads no Gmsh") {
  const Scratch scratch;
  const fs::path built = fs::path(THINSPOT_PROGRAM).parent_path();
  fs::create_directories(scratch / "in/bin");
  fs::copy(built / "../lib", scratch / "in/lib", fs::copy_options::recursive);
  fs::copy_file(THINSPOT_PROGRAM, scratch / "in/bin/thinspot");
  const std::string bare =
      "XDG_CACHE_HOME=\"$PWD/cache\" in/bin/thinspot solve case.toml --quiet ";
  const auto run = [&](const std::string& arguments) {
    return shell(scratch.path(), bare + arguments);
  };
  put(scratch / "case.toml", touching_case());
  REQUIRE(run("").status == 0);
  // Without the module that has Gmsh there is no mesh to be made.
  fs::remove(scratch / "in/lib/thinspot/thinspot-kernel.so");
  CHECK(run("").err == "");
  CHECK(run("--set supply.current=\"0.4 A\"").status == 0);
  CHECK(run("--set step.1.duration=\"50 min\"").status == 0);
  const Run other = run("--set part.diameter=\"29 mm\"");
  CHECK(other.status == 4);
  CHECK_THAT(other.err, Contains("thinspot-kernel.so"));
  CHECK(run("--no-cache").status == 4);
}

TEST_CASE("a cache folder that cannot be used is no error") {
  const Scratch scratch;
  put(scratch / "case.toml", sound_case());
  put(scratch / "file", "mine");
  fs::create_directories(scratch / "open/thinspot");
  REQUIRE(::chmod((scratch / "open/thinspot").c_str(), 0777) == 0);
  fs::create_directory(scratch / "home");
  for (const char* environment :
       {"XDG_CACHE_HOME=\"$PWD/file\"", "XDG_CACHE_HOME=/dev/null",
        "XDG_CACHE_HOME=/proc", "XDG_CACHE_HOME=\"$PWD/open\"",
        "XDG_CACHE_HOME=relative HOME=relative", "-u XDG_CACHE_HOME -u HOME"}) {
    CAPTURE(environment);
    const Run run = solve(scratch, "", environment);
    CHECK(run.status == 0);
    CHECK(run.err == "");
  }
  CHECK(content(scratch / "file") == "mine");
  CHECK(names_in(scratch / "open/thinspot").empty());
  CHECK_FALSE(fs::exists(scratch / "relative"));
  CHECK(solve(scratch, "", "-u XDG_CACHE_HOME HOME=\"$PWD/home\"").status == 0);
  CHECK_FALSE(names_in(scratch / "home/.cache/thinspot").empty());
}

TEST_CASE("damaged files in the cache are replaced") {
  const Scratch scratch;
  put(scratch / "case.toml", sound_case());
  REQUIRE(solve(scratch, "--out out").status == 0);
  for (const std::string& name : names_in(scratch / "cache/thinspot"))
    put(scratch / "cache/thinspot" / name, "damaged");
  const Run run = solve(scratch, "--out out");
  CHECK(run.status == 0);
  for (const std::string& name : names_in(scratch / "cache/thinspot"))
    CHECK(content(scratch / "cache/thinspot" / name) != "damaged");
}

TEST_CASE("two runs at once share a cache folder") {
  const Scratch scratch;
  put(scratch / "case.toml", sound_case());
  const Run run = shell(
      scratch.path(),
      "export XDG_CACHE_HOME=$PWD/cache; for k in 1 2 3 4; do \"$THINSPOT\" "
      "solve case.toml --quiet --out out$k & all+=($!); done; "
      "for p in \"${all[@]}\"; do wait $p || exit 1; done");
  CHECK(run.status == 0);
  CHECK(run.err == "");
  for (const std::string& name : names_in(scratch / "cache/thinspot"))
    CHECK_THAT(name, Catch::Matchers::EndsWith(".kept"));
  const auto first = written(scratch / "out1");
  for (const char* other : {"out2", "out3", "out4"})
    CHECK((written(scratch / other) == first));
}
