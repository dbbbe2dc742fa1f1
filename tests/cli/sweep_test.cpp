// thinspot sweep as its user sees it.
#include "tests/cli/program.hpp"
#include "tests/cli/shipped_cases.hpp"
#include "tests/scratch.hpp"
#include "tests/sqlite_rows.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <set>

using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Json = nlohmann::json;
namespace fs = std::filesystem;

namespace {

const std::vector<std::string> kGrid = {
    "--vary", "anode.sheet.gap=20 mm..40 mm:3", "--vary",
    "supply.current=0.2,0.4,0.8 A"};

/// How many come next; none asks who starts them.
const std::string kMpirun = std::string(kWithoutLeaks) +
                            "export OMPI_ALLOW_RUN_AS_ROOT=1 "
                            "OMPI_ALLOW_RUN_AS_ROOT_CONFIRM=1\n"
                            "mpirun --oversubscribe -n ";

/// @param more  behind case.toml
Run sweep(const Scratch& scratch, std::vector<std::string> more) {
  put(scratch / "case.toml", sound_case());
  more.insert(more.begin(), {"sweep", "case.toml"});
  return run_thinspot(scratch.path(), more);
}

std::vector<std::string> with(std::vector<std::string> options,
                              const std::vector<std::string>& more) {
  options.insert(options.end(), more.begin(), more.end());
  return options;
}

std::string points(const Scratch& scratch, const std::string& folder) {
  return content(scratch / (folder + "/points.csv"));
}

/// Rows without their number and with their cells by the names of columns, so
/// that the order of rows and columns is nothing.
std::set<std::string> rows_whatever_order(const std::string& csv) {
  const std::vector<std::string> lines = lines_of(csv);
  const auto cells = [](const std::string& line) {
    std::vector<std::string> all{""};
    for (const char c : line)
      if (c == ',')
        all.emplace_back();
      else
        all.back() += c;
    return all;
  };
  const auto names = cells(lines.at(0));
  std::set<std::string> rows;
  for (std::size_t k = 1; k < lines.size(); ++k) {
    std::set<std::string> row;
    const auto values = cells(lines[k]);
    for (std::size_t n = 1; n < names.size(); ++n)
      row.insert(names[n] + "=" + values.at(n));
    std::string all;
    for (const std::string& cell : row) all += cell + " ";
    rows.insert(all);
  }
  return rows;
}

void check_refused(const std::vector<std::string>& options,
                   const std::string& says) {
  const Scratch scratch;
  const Run run = sweep(scratch, options);
  CAPTURE(options, run.err);
  CHECK(run.status == 2);
  CHECK(run.out.empty());
  CHECK(lines_of(run.err).size() == 1);
  CHECK_THAT(run.err, Contains(says));
  CHECK_FALSE(fs::exists(scratch / "case-sweep"));
}

}  // namespace

TEST_CASE("sweep: a grid, its tables and pictures") {
  const Scratch scratch;
  const Run run = sweep(scratch, kGrid);
  REQUIRE(run.status == 0);
  CHECK(lines_of(run.out).size() <= 40);
  CHECK_THAT(run.out, Contains("9 points, 9 computed now: 9 with a result"));
  CHECK_THAT(run.out, Contains("Most even: point ") &&
                          Contains("thinspot solve case.toml --set"));
  const fs::path folder = scratch / "case-sweep";
  const Json json = Json::parse(content(folder / "sweep.json"));
  CHECK(json["points"]["done"] == 9);
  CHECK(json["varied"].size() == 2);
  std::set<std::string> listed;
  for (const Json& file : json["files"]) {
    listed.insert(file["name"]);
    CHECK(fs::file_size(folder / file["name"].get<std::string>()) ==
          file["bytes"]);
  }
  CHECK(listed.contains("points.csv"));
  CHECK(listed.contains("map_heaviest_over_thinnest.svg"));
  CHECK(listed.contains("curves_voltage_V.svg"));

  // What it says of the best point is what solving that point gives.
  const Json best = json["most_even"];
  const auto& inputs = best["inputs"];
  const Run solved = run_thinspot(
      scratch.path(),
      {"solve", "case.toml", "--quiet", "--out", "one", "--set",
       "anode.sheet.gap=" + inputs["anode.sheet.gap"].get<std::string>(),
       "--set",
       "supply.current=" + inputs["supply.current"].get<std::string>()});
  REQUIRE(solved.status == 0);
  const Json one = Json::parse(content(scratch / "one/summary.json"));
  const auto& thickness = one["part"]["thickness_um"];
  const auto& outputs = best["outputs"];
  const double off = outputs["thickness_min_um_mesh_error"].get<double>() +
                     thickness["min_mesh_error"].get<double>();
  CHECK(std::abs(outputs["thickness_min_um"].get<double>() -
                 thickness["min"].get<double>()) <= off);
  CHECK(outputs["mass_g"].get<double>() ==
        Approx(one["part"]["mass_g"].get<double>()).epsilon(1e-5));
}

TEST_CASE("sweep: the order of keys and values is nothing") {
  const Scratch scratch;
  REQUIRE(sweep(scratch, with(kGrid, {"--out", "a"})).status == 0);
  REQUIRE(sweep(scratch, {"--vary", "supply.current=0.8,0.2,0.4 A", "--vary",
                          "anode.sheet.gap=40,20,30 mm", "--out", "b"})
              .status == 0);
  const auto rows = rows_whatever_order(points(scratch, "a"));
  CHECK(rows.size() == 9);
  CHECK(rows == rows_whatever_order(points(scratch, "b")));
}

TEST_CASE("sweep: any number of processes, the same bytes") {
  const Scratch scratch;
  for (const char* jobs : {"1", "2", "3"}) {
    const Run run =
        sweep(scratch, with(kGrid, {"--jobs", jobs, "--out", jobs}));
    REQUIRE(run.status == 0);
    CHECK(points(scratch, jobs) == points(scratch, "1"));
  }
}

TEST_CASE("sweep: one, two and four ranks of MPI, the same bytes") {
  const Scratch scratch;
  if (shell(scratch.path(),
            "command -v mpirun && test -x \"${THINSPOT}-ranks\"")
          .status != 0) {
    WARN("skipped: there is no mpirun, or the program was built without it");
    return;
  }
  REQUIRE(sweep(scratch, with(kGrid, {"--out", "here"})).status == 0);
  for (const char* ranks : {"1", "2", "4"}) {
    const Run run =
        shell(scratch.path(), kMpirun + ranks +
                                  " \"$THINSPOT\" sweep case.toml --vary "
                                  "'anode.sheet.gap=20 mm..40 mm:3' --vary "
                                  "'supply.current=0.2,0.4,0.8 A' --out " +
                                  ranks);
    CAPTURE(ranks, run.err);
    REQUIRE(run.status == 0);
    CHECK_THAT(run.out, Contains("9 points, 9 computed now"));
    CHECK(points(scratch, ranks) == points(scratch, "here"));
  }
  // What is wrong is told once, by one of them.
  const Run wrong =
      shell(scratch.path(), kMpirun +
                                "2 \"$THINSPOT\" sweep case.toml --vary "
                                "'anode.sheet.gapp=20,30 mm'");
  CHECK(wrong.status == 2);
  const auto told = lines_of(wrong.err);
  CHECK(std::count_if(told.begin(), told.end(), [](const std::string& line) {
          return line.find("anode.sheet.gapp") != std::string::npos;
        }) == 1);
}

TEST_CASE("sweep: points that cannot be are recorded and it goes on") {
  const Scratch scratch;
  const Run run = sweep(scratch, {"--vary", "anode.sheet.gap=20,30,400 mm",
                                  "--vary", "supply.current=0.2,0.4 A"});
  CHECK(run.status == 0);
  CHECK_THAT(run.out, Contains("4 with a result, 2 refused"));
  CHECK_THAT(run.out, Contains("2 × "));
  const auto lines = lines_of(points(scratch, "case-sweep"));
  REQUIRE(lines.size() == 7);
  CHECK_THAT(lines[5], Contains("5,refused,") && Contains("sheet"));
  const auto db = (scratch / "case-sweep/sweep.sqlite").string();
  CHECK(row_of(db,
               "SELECT count(*) FROM points WHERE status = 'refused' AND "
               "message IS NOT NULL AND voltage_V IS NULL") == "2");
  CHECK(row_of(db,
               "SELECT group_concat(name) FROM columns WHERE kind = "
               "'input'") == "anode.sheet.gap_mm,supply.current_A");
  CHECK(row_of(db, "SELECT value FROM sweep WHERE key = 'version'") ==
        THINSPOT_VERSION);
}

TEST_CASE("sweep: where no point works it says why") {
  const Scratch scratch;
  // Each is sound to read, and none has current: 4 at the last moment.
  const Run run =
      sweep(scratch, {"--vary", "supply.voltage=0.01,0.02 V", "--set",
                      "cathode.polarization_offset=0.5 V"});
  CHECK(run.status == 4);
  CHECK_THAT(run.err, Contains("no point has one: "));
  CHECK(lines_of(points(scratch, "case-sweep")).size() == 3);
  // What is wrong with every point as it is read is told before any is tried.
  check_refused({"--vary", "anode.sheet.gap=20,30 A"}, "anode.sheet.gap");
}

TEST_CASE("sweep: a sample by lot, and by another") {
  const Scratch scratch;
  const auto sample = [&](const char* out, std::vector<std::string> more) {
    const Run run =
        sweep(scratch, with({"--vary", "anode.sheet.gap=20 mm..40 mm", "--vary",
                             "supply.current=0.1 A..1 A log", "--sample", "12",
                             "--out", out, "--quiet"},
                            more));
    CAPTURE(run.err);
    REQUIRE(run.status == 0);
    CHECK(run.out.empty());
    CHECK(lines_of(points(scratch, out)).size() == 13);
    CHECK(fs::exists(scratch / (std::string(out) + "/scatter_voltage_V.svg")));
    return points(scratch, out);
  };
  const std::string one = sample("a", {});
  CHECK(one == sample("b", {"--seed", "1", "--jobs", "1"}));
  CHECK(one != sample("c", {"--seed", "2"}));
  CHECK(one != sample("d", {"--sobol"}));
}

TEST_CASE("sweep: bands where they are asked for") {
  const Scratch scratch;
  const Run run =
      sweep(scratch, {"--vary", "supply.current=0.2,0.4 A", "--bands", "--set",
                      "solution.conductivity=20 S/m +- 2 S/m"});
  REQUIRE(run.status == 0);
  const auto db = (scratch / "case-sweep/sweep.sqlite").string();
  CHECK(row_of(db,
               "SELECT count(*) FROM points WHERE voltage_V_band_low < "
               "voltage_V AND voltage_V < voltage_V_band_high") == "2");
}

TEST_CASE("sweep: run again it has nothing to do, and knows its case") {
  const Scratch scratch;
  REQUIRE(sweep(scratch, kGrid).status == 0);
  const std::string first = points(scratch, "case-sweep");
  const Run again = sweep(scratch, kGrid);
  CHECK(again.status == 0);
  CHECK_THAT(again.out, Contains("9 points, 0 computed now"));
  CHECK(points(scratch, "case-sweep") == first);

  const auto refused = [&](const std::vector<std::string>& options,
                           const std::string& says) {
    const Run run = sweep(scratch, options);
    CAPTURE(options, run.err);
    CHECK(run.status == 2);
    CHECK(lines_of(run.err).size() == 1);
    CHECK_THAT(run.err, Contains(says) && Contains("--anew"));
    CHECK(points(scratch, "case-sweep") == first);
  };
  refused({"--vary", "supply.current=0.2,0.4 A"}, "vary");
  refused(with(kGrid, {"--set", "tank.level=90 mm"}), "set");
  put(scratch / "case.toml", sound_case() + "\n# another\n");
  const Run changed =
      run_thinspot(scratch.path(), with({"sweep", "case.toml"}, kGrid));
  CHECK(changed.status == 2);
  CHECK_THAT(changed.err, Contains("before it was changed"));
  CHECK(run_thinspot(scratch.path(),
                     with({"sweep", "case.toml", "--anew"}, kGrid))
            .status == 0);
}

TEST_CASE("sweep: what is wrong is told in one line, and nothing made") {
  check_refused({}, "--vary");
  check_refused({"--vary", "anode.sheet.gap"}, "equals");
  check_refused({"--vary", "anode.sheet.gapp=10,20 mm"},
                "is \"anode.sheet.gap\" meant?");
  check_refused({"--vary", "anode.sheet.gap=10 mm..20 mm"}, "how many");
  check_refused({"--vary", "anode.sheet.gap=20 mm..10 mm:3"}, "does not rise");
  check_refused({"--vary", "anode.sheet.gap=10 mm..20 mm:1"}, "2 to ");
  check_refused({"--vary", "anode.sheet.gap=10 mm..2 cm:3"}, "two units");
  check_refused({"--vary", "anode.sheet.gap=10,10 mm"}, "twice");
  check_refused(
      {"--vary", "supply.current=1,2 A", "--vary", "supply.voltage=1,2 V"},
      "beside");
  check_refused({"--vary", "supply.current=0.1 A..1 A:100000", "--vary",
                 "tank.level=80 mm..90 mm:100000"},
                "too many points");
  check_refused(with(kGrid, {"--sample", "0"}), "--sample");
  check_refused(with(kGrid, {"--sobol"}), "--sobol");
  check_refused(with(kGrid, {"--jobs", "many"}), "--jobs");
  check_refused(with(kGrid, {"--longest", "3"}), "--longest");
  check_refused(with(kGrid, {"second.toml"}), "second case");
}

TEST_CASE("sweep: a folder that another sweep is filling is left to it") {
  const Scratch scratch;
  REQUIRE(sweep(scratch, kGrid).status == 0);
  const Run run = shell(scratch.path(),
                        "exec 9>>case-sweep/.thinspot; flock -n 9 || exit 9\n"
                        "\"$THINSPOT\" sweep case.toml --vary "
                        "'anode.sheet.gap=20 mm..40 mm:3' --vary "
                        "'supply.current=0.2,0.4,0.8 A'");
  CHECK(run.status == 3);
  CHECK_THAT(run.err, Contains("another run is writing there just now"));
}
