// What the program loads: nothing that the verb does not need.

#include "tests/cli/program.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <string>

using namespace thinspot::tests;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// A copy of the program with nothing beside it: all that asks for a module
/// ends there.
void put_bare_program(const Scratch& scratch) {
  fs::create_directories(scratch / "in/bin");
  fs::create_directories(scratch / "in/lib/thinspot");
  fs::copy_file(THINSPOT_PROGRAM, scratch / "in/bin/thinspot");
}

}  // namespace

TEST_CASE("help, version and a check need no module, and load no third party") {
  const Scratch scratch;
  put_bare_program(scratch);
  put(scratch / "case.toml", sound_case());
  for (const std::string arguments :
       {"--help", "--version", "solve --help", "check case.toml"}) {
    CAPTURE(arguments);
    const Run run = shell(scratch.path(),
                          "rm -f loader.*; LD_DEBUG=files "
                          "LD_DEBUG_OUTPUT=loader in/bin/thinspot " +
                              arguments + " >out.txt && cat loader.*");
    CHECK(run.status == 0);
    CHECK(run.err == "");
    CHECK_THAT(run.out, Contains("libstdc++"));  // it was asked
    for (const char* name : {"libgmsh", "libTK", "libvtk", "libmpi", "libX11"})
      CHECK_THAT(run.out, !Contains(name));
  }
}

TEST_CASE("a module that is missing, broken or of another version: one line") {
  const Scratch scratch;
  put(scratch / "case.toml", sound_case());
  put_bare_program(scratch);
  const auto ends = [&](const std::string& with) {
    const Run run =
        shell(scratch.path(), "exec in/bin/thinspot solve case.toml --quiet");
    CHECK(run.status == 4);
    CHECK(lines_of(run.err).size() == 1);
    CHECK_THAT(run.err, Contains("thinspot-kernel.so"));
    CHECK_THAT(run.err, Contains("build or install thinspot anew"));
    CHECK_THAT(run.err, Contains(with));
    CHECK_FALSE(fs::exists(scratch / "case-out/summary.json"));
  };
  ends("No such file");
  put(scratch / "in/lib/thinspot/thinspot-kernel.so", "not a library");
  ends("cannot be loaded: ");
  fs::remove(scratch / "in/lib/thinspot/thinspot-kernel.so");
  // The user's folder is nowhere to look for libraries.
  fs::copy_file(fs::path(THINSPOT_PROGRAM).parent_path() /
                    "../lib/thinspot/thinspot-kernel.so",
                scratch / "thinspot-kernel.so");
  ends("No such file");
  // Of the same length, so that nothing else in it moves.
  std::string bytes = content(scratch / "thinspot-kernel.so");
  const std::string version = THINSPOT_VERSION;
  const std::size_t at = bytes.find(std::string(version) + '\0');
  REQUIRE(at != std::string::npos);
  bytes.replace(at, version.size(), std::string(version.size(), '9'));
  put(scratch / "in/lib/thinspot/thinspot-kernel.so", bytes);
  ends("is of thinspot " + std::string(version.size(), '9'));
}
