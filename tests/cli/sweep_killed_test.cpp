// What a sweep outlives.
#include "tests/cli/program.hpp"
#include "tests/scratch.hpp"
#include "tests/sqlite_rows.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <random>
#include <string>

using namespace thinspot::tests;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// Forty geometries with ten currents each: some seconds of work.
const std::string kSweep =
    "\"$THINSPOT\" sweep case.toml --vary 'anode.sheet.gap=10 mm..40 mm:40' "
    "--vary 'supply.current=0.1 A..1 A:10' ";
constexpr const char* kPoints = "400";

/// Says how many of the program's processes are left in this folder, as soon as
/// there is none, or after five seconds.
const std::string kLeft =
    "left() {\n"
    "  for p in /proc/[0-9]*; do\n"
    "    [[ $(readlink $p/exe) == \"$THINSPOT\" ]] &&\n"
    "      [[ $(readlink $p/cwd) == \"$(pwd -P)\" ]] && echo $p\n"
    "  done\n"
    "}\n"
    "for n in {1..50}; do [[ $(left) ]] || break; sleep 0.1; done\n"
    "left | wc -l\n";

std::string reference(const Scratch& scratch) {
  put(scratch / "case.toml", sound_case());
  const Run run = shell(scratch.path(), kSweep + "--quiet --out whole");
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
  return content(scratch / "whole/points.csv");
}

/// Every answer stored once, by one run; the same as without interruption.
void check_whole(const Scratch& scratch, const std::string& folder,
                 const std::string& expected) {
  const std::string db = (scratch / (folder + "/sweep.sqlite")).string();
  CHECK(row_of(db, "PRAGMA integrity_check") == "ok");
  CHECK(row_of(db, "SELECT count(*) FROM points") == kPoints);
  CHECK(row_of(db, "SELECT sum(points) FROM runs") == kPoints);
  CHECK(row_of(db,
               "SELECT count(*) FROM runs WHERE points <> (SELECT count(*) "
               "FROM points WHERE points.run = runs.run)") == "0");
  CHECK(content(scratch / (folder + "/points.csv")) == expected);
}

}  // namespace

TEST_CASE(
    "sweep: killed twenty times it loses nothing and does nothing twice") {
  const Scratch scratch;
  const std::string whole = reference(scratch);
  std::mt19937 lot(4);
  int killed = 0;
  // Between before it has begun and near its end.
  std::uniform_real_distribution<double> seconds(0.02, 0.6);
  for (int round = 0; round < 20; ++round) {
    const Run run = shell(scratch.path(), kSweep +
                                              "--quiet --out cut & pid=$!\n"
                                              "sleep " +
                                              std::to_string(seconds(lot)) +
                                              "\nkill -9 $pid 2>/dev/null\n"
                                              "wait $pid 2>/dev/null\n" +
                                              kLeft);
    CAPTURE(round, run.out, run.err);
    CHECK(run.out == "0\n");
    const std::string db = (scratch / "cut/sweep.sqlite").string();
    if (fs::exists(db)) {
      CHECK(row_of(db, "PRAGMA integrity_check") == "ok");
      killed += !fs::exists(scratch / "cut/sweep.json");
    }
    // Done before the last round: begin anew.
    if (fs::exists(scratch / "cut/sweep.json")) {
      check_whole(scratch, "cut", whole);
      fs::remove_all(scratch / "cut");
    }
  }
  CHECK(killed >= 5);
  const Run last = shell(scratch.path(), kSweep + "--quiet --out cut");
  CHECK(last.status == 0);
  check_whole(scratch, "cut", whole);
}

TEST_CASE("sweep: who computes is killed, and it goes on") {
  const Scratch scratch;
  const std::string whole = reference(scratch);
  // Two generations below the program are those that compute; for a while
  // each is ended as soon as it is there.
  const Run run =
      shell(scratch.path(),
            kSweep +
                "--jobs 1 --out cut & pid=$!\n"
                "for n in {1..40}; do\n"
                "  for over in $(pgrep -P $pid); do pkill -9 -P $over; done\n"
                "  sleep 0.02\n"
                "done\n"
                "wait $pid");
  CAPTURE(run.out, run.err);
  CHECK(run.status == 0);
  const std::string db = (scratch / "cut/sweep.sqlite").string();
  CHECK(row_of(db, "SELECT count(*) FROM points") == kPoints);
  CHECK(row_of(db,
               "SELECT count(*) FROM points WHERE status NOT IN ('done', "
               "'lost')") == "0");
  CHECK(row_of(db,
               "SELECT count(*) FROM points WHERE status = 'lost' AND "
               "message NOT LIKE 'computing it crashed; --again %'") == "0");
  // Lost points stay lost, until they are asked for again.
  const std::string lost =
      row_of(db, "SELECT count(*) FROM points WHERE status = 'lost'");
  CHECK(lost != "0");
  CHECK(shell(scratch.path(), kSweep + "--quiet --out cut").status == 0);
  CHECK(row_of(db, "SELECT count(*) FROM points WHERE status = 'lost'") ==
        lost);
  const Run again = shell(scratch.path(), kSweep + "--again --out cut");
  CHECK(again.status == 0);
  CHECK_THAT(again.out, Contains("400 points, " + lost + " computed now"));
  CHECK(row_of(db, "SELECT count(*) FROM points WHERE status = 'done'") ==
        kPoints);
  // A group whose mesh was shared no more was computed one by one: within the
  // mesh errors, and no longer the same bytes.
  CHECK(row_of(db, "SELECT count(*) FROM points WHERE within_tolerance = 1") ==
        kPoints);
}

TEST_CASE("sweep: a full disk ends it with one line and a whole database") {
  const Scratch scratch;
  const std::string whole = reference(scratch);
  // A disk of its own, where the kernel lets anybody mount one.
  put(scratch / "full.sh",
      "mkdir disk && mount -t tmpfs -o size=120k tmpfs disk || exit 9\n" +
          kSweep +
          "--out disk/out > told 2> wrong\n"
          "echo $? > status\n"
          "cp disk/out/sweep.sqlite full.sqlite\n"
          "mount -o remount,size=50m disk\n" +
          kSweep + "--out disk/out >> told && cp -r disk/out cut\n");
  const Run run = shell(scratch.path(), "unshare -rm bash full.sh");
  if (!fs::exists(scratch / "status")) {
    WARN("skipped: no disk can be mounted here");
    return;
  }
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
  CHECK(content(scratch / "status") == "3\n");
  CHECK(lines_of(content(scratch / "wrong")).size() == 1);
  CHECK_THAT(content(scratch / "wrong"), Contains("the disk is full"));
  const std::string full = (scratch / "full.sqlite").string();
  CHECK(row_of(full, "PRAGMA integrity_check") == "ok");
  const int stored = std::stoi(row_of(full, "SELECT count(*) FROM points"));
  CHECK(stored > 0);
  CHECK(stored < std::stoi(kPoints));
  check_whole(scratch, "cut", whole);
}
