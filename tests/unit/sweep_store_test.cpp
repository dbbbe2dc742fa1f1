// The database of a sweep: what goes in comes out, whatever ends the program.
#include "io/sweep_store.hpp"
#include "io/output_folder.hpp"
#include "mesh/errors.hpp"
#include "tests/scratch.hpp"
#include "tests/sqlite_rows.hpp"
#include "tests/unit/sweep_requests.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace thinspot;
using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Status = io::SweepAnswer::Status;
using Rows = std::vector<std::string>;

namespace {

const std::vector<std::string> kVary{"anode.sheet.gap=20 mm,30 mm,35 mm",
                                     "cathode.law=linear,tafel"};

/// An answer whose outputs are 100 * point + their place.
io::SweepAnswer done(const io::Sweep& sweep, std::uint64_t point) {
  io::SweepAnswer a{point, Status::done, "current", {}};
  for (std::size_t k = 0; k < sweep.outputs().size(); ++k)
    a.outputs.push_back(100 * static_cast<double>(point) +
                        static_cast<double>(k));
  return a;
}

io::SweepAnswer failed(std::uint64_t point, Status status,
                       const std::string& words) {
  return {point, status, words, {}};
}

std::vector<std::uint64_t> points_of(const io::SweepStore& store) {
  std::vector<std::uint64_t> points;
  store.for_each([&](const io::SweepRow& row) { points.push_back(row.point); });
  return points;
}

void check_sound(const std::filesystem::path& file) {
  CHECK(row_of(file, "PRAGMA integrity_check") == "ok");
}

/// In one line.
template <class Error, class Work>
std::string told(Work work) {
  try {
    work();
  } catch (const Error& error) {
    const std::string text = error.what();
    CHECK(text.find('\n') == std::string::npos);
    return text;
  }
  return "nothing is wrong";
}

std::string opened(const std::filesystem::path& file, const io::Sweep& sweep) {
  return told<io::OutputError>([&] {
    io::SweepStore store(file, sweep);
    store.answered();
    for (io::SweepRows rows = store.rows();;) {
      io::SweepRow row;
      if (!rows.next(row)) break;
    }
  });
}

std::string other_sweep(const std::filesystem::path& file,
                        const io::SweepRequest& request) {
  const io::Sweep sweep(request);
  return told<InputError>([&] { io::SweepStore store(file, sweep); });
}

}  // namespace

TEST_CASE("what is added is there when it is opened again", "[sweep]") {
  const Scratch folder;
  const auto file = folder / "a b's.sqlite";
  const io::Sweep sweep = sweep_of(kVary);
  {
    io::SweepStore store(file, sweep);
    CHECK(store.answered() == std::vector<bool>(6, false));
    store.begin_run(2);
    store.add({done(sweep, 4), failed(1, Status::refused,
                                      "part: is \"bad\"\n;"
                                      " DROP TABLE '")});
    store.add({failed(3, Status::lost, "took too long")});
    store.write();
    CHECK(store.answered() ==
          std::vector<bool>{false, true, false, true, true, false});
  }
  check_sound(file);
  {
    io::SweepStore store(file, sweep);
    CHECK(points_of(store) == std::vector<std::uint64_t>{1, 3, 4});
    // Lost ones are computed again; what is there stays as it is.
    store.forget_lost();
    CHECK(store.answered() ==
          std::vector<bool>{false, true, false, false, true, false});
    store.begin_run(1);
    store.add({failed(4, Status::no_result, "late"), done(sweep, 0)});
    store.add({done(sweep, 3), done(sweep, 0)});
    store.write();
    std::vector<io::SweepRow> rows;
    store.for_each([&](const io::SweepRow& row) { rows.push_back(row); });
    REQUIRE(rows.size() == 4);
    CHECK(points_of(store) == std::vector<std::uint64_t>{0, 1, 3, 4});
    CHECK(rows[1].status == Status::refused);
    CHECK(rows[1].message == "part: is \"bad\"\n; DROP TABLE '");
    CHECK(rows[1].limited_by.empty());
    REQUIRE(rows[1].outputs.size() == sweep.outputs().size());
    for (const double output : rows[1].outputs) CHECK(std::isnan(output));
    CHECK(rows[3].status == Status::done);
    CHECK(rows[3].message.empty());
    CHECK(rows[3].limited_by == "current");
    CHECK(rows[3].outputs == done(sweep, 4).outputs);
  }
  check_sound(file);
  CHECK(rows_of(file,
                "SELECT run, workers, points, last_write IS NULL FROM "
                "runs") == Rows{"1|2|3|0", "2|1|2|0"});
  CHECK(rows_of(file, "SELECT point, run FROM points") ==
        Rows{"1|2", "2|1", "4|2", "5|1"});
}

TEST_CASE("what is not a number is nothing", "[sweep]") {
  const Scratch folder;
  const io::Sweep sweep = sweep_of(kVary);
  io::SweepStore store(folder / "s", sweep);
  store.begin_run(1);
  io::SweepAnswer a = done(sweep, 2);
  a.outputs[0] = std::numeric_limits<double>::quiet_NaN();
  a.outputs[1] = std::numeric_limits<double>::infinity();
  store.add({a, failed(5, Status::no_result, "")});
  store.write();
  CHECK(row_of(folder / "s",
               "SELECT current_A, voltage_V, thickness_min_um FROM points "
               "WHERE point = 3") == "NULL|NULL|202.0");
  CHECK(row_of(folder / "s",
               "SELECT status, limited_by, current_A FROM points "
               "WHERE point = 6") == "no result|NULL|NULL");
}

TEST_CASE("tables say what the sweep is and what is in them", "[sweep]") {
  const Scratch folder;
  io::SweepRequest request = request_of(kVary);
  request.overrides = {"title=a \"b\" 'c'; DROP TABLE points"};
  request.drawings = "drawn";
  const io::Sweep sweep(request);
  const auto file = folder / "s";
  {
    io::SweepStore store(file, sweep);
    store.begin_run(1);
    store.add({done(sweep, 3)});
    store.write();
  }
  CHECK(rows_of(file,
                "SELECT name FROM sqlite_master WHERE type = 'table' "
                "ORDER BY name") == Rows{"columns", "points", "runs", "sweep"});
  const auto value = [&](const std::string& key) {
    return row_of(file, "SELECT value FROM sweep WHERE key = '" + key + "'");
  };
  CHECK(value("vary") == kVary[0] + "\n" + kVary[1] + "\n");
  CHECK(value("set") == request.overrides[0] + "\n");
  CHECK(value("case_text") == request.text);
  CHECK(value("case_file") == request.file);
  CHECK(value("drawings") == "drawn");
  CHECK(value("method") == "grid");
  CHECK(value("points") == "6");
  CHECK(value("seed") == "1");
  CHECK(value("schema") == "1");
  CHECK(row_of(file, "SELECT count(*) FROM sweep") == "14");
  // A row for each column of points behind its own five, in their order.
  const Rows told = rows_of(file, "SELECT name FROM columns ORDER BY place");
  Rows there = rows_of(file, "SELECT name FROM pragma_table_info('points')");
  REQUIRE(there.size() > 5);
  CHECK(Rows(there.begin(), there.begin() + 5) ==
        Rows{"point", "status", "message", "limited_by", "run"});
  there.erase(there.begin(), there.begin() + 5);
  CHECK(there == told);
  CHECK(told.size() == 2 + sweep.outputs().size());
  CHECK(rows_of(file, "SELECT name, kind, key, unit FROM columns LIMIT 3") ==
        Rows{"anode.sheet.gap_mm|input|anode.sheet.gap|mm",
             "cathode.law|input|cathode.law|", "current_A|output|NULL|A"});
  CHECK(row_of(file,
               "SELECT point, \"anode.sheet.gap_mm\", \"cathode.law\", "
               "current_A, typeof(\"anode.sheet.gap_mm\") FROM points") ==
        "4|30.0|tafel|300.0|real");
  CHECK(row_of(file,
               "SELECT count(*) FROM runs WHERE began GLOB "
               "'20[0-9][0-9]-*T*Z' AND last_write >= began") == "1");
}

TEST_CASE("names of columns with quotes in them", "[sweep]") {
  const Scratch folder;
  const std::string text =
      with(sound_case(), "name = \"sheet\"", "name = 'a \"b\" ]; `c`'");
  const io::Sweep sweep =
      sweep_of({"anode.a \"b\" ]; `c`.gap=20 mm,30 mm"}, 0, text);
  {
    io::SweepStore store(folder / "s", sweep);
    store.begin_run(1);
    store.add({done(sweep, 1)});
    store.write();
    CHECK(points_of(store) == std::vector<std::uint64_t>{1});
  }
  CHECK(row_of(folder / "s",
               "SELECT \"anode.a \"\"b\"\" ]; `c`.gap_mm\" FROM points") ==
        "30.0");
}

TEST_CASE("the database of another sweep is refused", "[sweep]") {
  const Scratch folder;
  const auto file = folder / "s";
  io::SweepRequest own = request_of(kVary, 10);
  own.overrides = {"depth=10 mm"};
  own.drawings = "drawn";
  { io::SweepStore store(file, io::Sweep(own)); }
  const std::string before = content(file);
  const auto refused = [&](const char* words, auto change) {
    io::SweepRequest other = own;
    change(other);
    CAPTURE(words);
    const std::string text = other_sweep(file, other);
    CHECK_THAT(text, Contains(words));
    CHECK_THAT(text, Contains("--anew"));
    CHECK(content(file) == before);
  };
  using R = io::SweepRequest;
  refused("vary was", [](R& r) { r.vary[0] += ",40 mm"; });
  refused("vary was", [](R& r) { std::swap(r.vary[0], r.vary[1]); });
  refused("set was", [](R& r) { r.overrides[0] = "depth=11 mm"; });
  refused("set was", [](R& r) { r.overrides.clear(); });
  refused("seed was", [](R& r) { r.seed = 2; });
  refused("sample was", [](R& r) { r.sample = 11; });
  refused("sample was", [](R& r) { r.sample = 0; });
  refused("method was", [](R& r) { r.sobol = true; });
  refused("bands was", [](R& r) { r.bands = true; });
  refused("before it was changed", [](R& r) { r.text += "# more\n"; });
  refused("another drawing", [](R& r) { r.drawings = "anew"; });
  // Where the case lies changes nothing, nor does how long one waits.
  io::SweepRequest moved = own;
  moved.file = "elsewhere/case.toml";
  moved.longest = 7;
  CHECK(other_sweep(file, moved) == "nothing is wrong");
  rows_of(file, "UPDATE sweep SET value = '0.0.1' WHERE key = 'version'");
  CHECK_THAT(other_sweep(file, own), Contains("version was \"0.0.1\""));
  rows_of(file, "DELETE FROM sweep WHERE key = 'version'");
  CHECK_THAT(other_sweep(file, own), Contains("version was \"\""));
}

TEST_CASE("what is no database, or cannot be one, is told", "[sweep]") {
  const Scratch folder;
  const io::Sweep sweep = sweep_of(kVary);
  put(folder / "text", std::string(5000, 'x'));
  CHECK_THAT(opened(folder / "text", sweep), Contains("no sound database"));
  CHECK(content(folder / "text") == std::string(5000, 'x'));
  std::filesystem::create_directory(folder / "folder");
  CHECK_THAT(opened(folder / "folder", sweep), Contains("cannot open"));
  CHECK_THAT(opened(folder / "none" / "s", sweep), Contains("cannot open"));
  // Where nobody may write, whoever runs the tests.
  CHECK_THAT(opened("/proc/s.sqlite", sweep), Contains("cannot"));
  // An empty one is a new one.
  put(folder / "empty", "");
  CHECK(opened(folder / "empty", sweep) == "nothing is wrong");
  // Tables of somebody else's.
  rows_of(folder / "other", "CREATE TABLE sweep (a); CREATE TABLE points (b)");
  CHECK_THAT(opened(folder / "other", sweep), Contains("cannot read it"));
}

TEST_CASE("a database that is cut short or broken is told", "[sweep]") {
  const Scratch folder;
  const io::Sweep sweep = sweep_of({"supply.current=0.1 A..1 A:1000"});
  {
    io::SweepStore store(folder / "s", sweep);
    store.begin_run(1);
    std::vector<io::SweepAnswer> all;
    for (std::uint64_t k = 0; k < 1000; ++k) all.push_back(done(sweep, k));
    store.add(all);
    store.write();
  }
  check_sound(folder / "s");
  const std::string whole = content(folder / "s");
  REQUIRE(whole.size() > 100'000);
  for (const std::size_t size :
       {whole.size() / 2, std::size_t{5000}, std::size_t{60}}) {
    CAPTURE(size);
    put(folder / "cut", whole.substr(0, size));
    CHECK_THAT(opened(folder / "cut", sweep), Contains("no sound database"));
  }
  // Pages overwritten by something else. Nobody reads columns and runs.
  std::size_t pages = 0, seen = 0;
  for (std::size_t at = 4096; at + 4096 < whole.size(); at += 4096) {
    CAPTURE(at);
    ++pages;
    std::string broken = whole;
    broken.replace(at, 4096, std::string(4096, '\x5a'));
    put(folder / "broken", broken);
    std::string text;
    try {
      text = opened(folder / "broken", sweep);
    } catch (const InputError& error) {
      text = error.what();
      FAIL_CHECK(text);
    }
    seen += text.find("no sound database") != std::string::npos;
  }
  CHECK(seen + 2 >= pages);
}

TEST_CASE("what is wrong and how often", "[sweep]") {
  const Scratch folder;
  const io::Sweep sweep = sweep_of(kVary);
  io::SweepStore store(folder / "s", sweep);
  store.begin_run(1);
  store.add({failed(0, Status::refused, "b"), failed(1, Status::refused, "a"),
             failed(2, Status::lost, "c"), failed(3, Status::refused, "c"),
             done(sweep, 4)});
  store.write();
  using All = std::vector<std::pair<std::string, std::uint64_t>>;
  CHECK(store.messages(2) == All{{"c", 2}, {"a", 1}});
  CHECK(store.messages(10).size() == 3);
}
