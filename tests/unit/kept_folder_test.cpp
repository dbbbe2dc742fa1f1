// What is read back from a folder of results, sound and otherwise.

#include "io/kept_folder.hpp"
#include "io/csv_rows.hpp"
#include "io/kept_summary.hpp"
#include "io/kept_surface.hpp"
#include "io/tables_csv.hpp"
#include "mesh/errors.hpp"
#include "tests/scratch.hpp"
#include "tests/unit/kept_samples.hpp"
#include "tests/unit/synthetic_result.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace thinspot;
using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;
namespace fs = std::filesystem;

namespace {

template <class Read>
std::string refusal(const Read& read) {
  try {
    read();
  } catch (const InputError& error) {
    CHECK(error.problems().size() == 1);
    const Problem& p = error.problems().front();
    CHECK_FALSE(p.mend.empty());
    return p.place + ": " + p.key + ": " + p.wrong;
  }
  return "not refused";
}

std::string refused_summary(const std::string& text) {
  return refusal([&] { io::read_summary(text); });
}

std::string refused_surface(const std::string& csv) {
  solver::KeptResult k =
      io::read_summary(summary_text(synthetic_result())).kept;
  return refusal([&] { io::read_surface(csv, k); });
}

/// One text put in place of another, the first that is met.
std::string with(std::string text, const std::string& from,
                 const std::string& to) {
  const std::size_t at = text.find(from);
  CAPTURE(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

}  // namespace

TEST_CASE("a result comes back from its files", "[compare]") {
  solver::Result r = synthetic_result();
  r.target.emplace();
  r.target->wanted = 15e-6;
  r.target->least = 12.3456e-6;
  r.target->least_band = {11e-6, 13e-6};
  const solver::KeptResult k = kept(r);
  CHECK(k.result.used.title == r.used.title);
  REQUIRE(k.result.parts.size() == 1);
  const auto &in = r.parts[0], &out = k.result.parts[0];
  REQUIRE(out.surface.size() == in.surface.size());
  CHECK_FALSE(solver::has_bands(k));
  for (std::size_t n = 0; n < in.surface.size(); ++n) {
    const auto &p = in.surface[n], &q = out.surface[n];
    // Six digits.
    CHECK(q.thickness == Approx(p.thickness).epsilon(1e-5));
    CHECK(q.current_density == Approx(p.current_density).epsilon(1e-5));
    CHECK((q.at - p.at).norm() <= 1e-5 * p.at.norm());
    CHECK(q.loop == p.loop);
    CHECK(q.wetted == p.wetted);
    CHECK(q.judged == p.judged);
    CHECK(out.faces[static_cast<std::size_t>(q.face)].name ==
          in.faces[static_cast<std::size_t>(p.face)].name);
  }
  CHECK(out.thickness.value.min ==
        Approx(in.thickness.value.min).epsilon(1e-5));
  CHECK(out.thickness.min_band.low ==
        Approx(in.thickness.min_band.low).epsilon(1e-5));
  CHECK(out.mass == Approx(in.mass).epsilon(1e-5));
  CHECK(k.result.cell.voltage == Approx(r.cell.voltage).epsilon(1e-5));
  CHECK(k.result.steps.size() == r.steps.size());
  REQUIRE(k.result.target);
  CHECK(k.result.target->least == Approx(r.target->least).epsilon(1e-5));
  CHECK(k.result.target->least_band.high == Approx(13e-6).epsilon(1e-5));
}

TEST_CASE("bands come along where the table has them", "[compare]") {
  const solver::Result r = synthetic_result();
  std::string csv;
  for (std::size_t from = 0, line = 0; from < io::surface_csv(r).size();
       ++line) {
    const std::string all = io::surface_csv(r);
    const std::size_t end = all.find('\n', from);
    csv += all.substr(from, end - from) +
           (line == 0 ? ",thickness_low_um,thickness_high_um\n" : ",1,2\n");
    from = end + 1;
  }
  solver::KeptResult k = io::read_summary(summary_text(r)).kept;
  io::read_surface(csv, k);
  CHECK(solver::has_bands(k));
  for (const auto& p : k.result.parts[0].surface) {
    CHECK(p.thickness_band.low == Approx(1e-6));
    CHECK(p.thickness_band.high == Approx(2e-6));
  }
}

TEST_CASE("a summary that is none is told in one line", "[compare]") {
  const std::string sound = summary_text(synthetic_result());
  REQUIRE_NOTHROW(io::read_summary(sound));
  CHECK_THAT(refused_summary(""), Contains("no sound JSON"));
  CHECK_THAT(refused_summary("[]"), Contains("no JSON object"));
  CHECK_THAT(refused_summary(sound.substr(0, sound.size() / 2)),
             Contains("no sound JSON"));
  CHECK_THAT(refused_summary(std::string(1'000'000, '[')),
             Contains("no sound JSON"));
  CHECK_THAT(refused_summary("{}"), Contains("not written by thinspot"));
  CHECK_THAT(refused_summary(with(sound, "\"thinspot\"", "\"other\"")),
             Contains("not written by thinspot"));
  CHECK_THAT(refused_summary(with(sound, "\"schema\": 1", "\"schema\": 2")),
             Contains("schema 2"));
  CHECK_THAT(refused_summary(with(sound, "\"schema\": 1", "\"schema\": -1")),
             Contains("damaged"));
  CHECK_THAT(refused_summary(with(sound, "\"schema\": 1", "\"schema\": \"1\"")),
             Contains("damaged"));
  CHECK_THAT(refused_summary(with(sound, "\"surface.csv\"", "\"other.csv\"")),
             Contains("surface.csv"));
  CHECK_THAT(refused_summary(with(sound, "\"parts\": ", "\"pirts\": ")),
             Contains("has no") && Contains("parts"));
  // Any field of the tree, in turn, as null, as text, and as far too much.
  const auto whole = nlohmann::json::parse(sound);
  const auto leaves = whole.flatten();
  for (const auto& [key, value] : leaves.items())
    for (const nlohmann::json& bad :
         {nlohmann::json(nullptr), nlohmann::json("x"),
          nlohmann::json(1e300)}) {
      auto changed = whole;
      changed[nlohmann::json::json_pointer(key)] = bad;
      try {
        io::read_summary(changed.dump());
      } catch (const InputError& error) {
        CHECK_THAT(std::string(error.what()), StartsWith("summary.json: "));
      }
    }
}

TEST_CASE("a surface that is none is told in one line", "[compare]") {
  const std::string sound = io::surface_csv(synthetic_result());
  REQUIRE(refused_surface(sound) == "not refused");
  CHECK(refused_surface("\xEF\xBB\xBF" + sound) == "not refused");
  CHECK_THAT(refused_surface(""), Contains("is empty"));
  CHECK_THAT(refused_surface("\n\r\n"), Contains("is empty"));
  CHECK_THAT(refused_surface(sound.substr(0, sound.find('\n') + 1)),
             Contains("no point"));
  CHECK_THAT(refused_surface(sound.substr(0, sound.size() - 9)),
             Contains("line "));
  CHECK_THAT(refused_surface(with(sound, "thickness_um", "thickness_mm")),
             Contains("no column thickness_um"));
  const auto cell = [&](const std::string& bad) {
    const std::size_t row = sound.find('\n') + 1;
    const std::size_t from = sound.find(',', sound.find(',', row) + 1) + 1;
    return sound.substr(0, from) + bad + sound.substr(sound.find(',', from));
  };
  for (const char* bad : {"nan", "inf", "-inf", "1e999", "", "1 2", "0x1p3",
                          "1,5", "-1", "1e10"}) {
    CAPTURE(bad);
    CHECK_THAT(refused_surface(cell(bad)), Contains("surface.csv: line 2"));
  }
  CHECK_THAT(refused_surface(with(sound, "\npart,0,", "\nother,0,")),
             Contains("summary.json does not have"));
  CHECK_THAT(refused_surface(with(sound, "\npart,0,", "\npart,7e8,")),
             Contains("out of its order"));
  CHECK_THAT(refused_surface(with(sound, "\npart,0,", "\npart,0.5,")),
             Contains("out of its order"));
  CHECK_THAT(refused_surface(with(sound, "\npart,0,", "\n\"part,0,")),
             Contains("never closed"));
  // Backwards.
  const std::size_t second = sound.find('\n', sound.find('\n') + 1);
  CHECK_THAT(refused_surface(sound + sound.substr(second + 1)),
             Contains("goes back"));
}

TEST_CASE("cells of a table in quotes", "[compare]") {
  io::CsvRows rows("a,\"b,\"\"c\"\"\n d\",\r\n\n,e");
  std::vector<std::string> cells;
  REQUIRE(rows.next(cells));
  CHECK(cells == std::vector<std::string>{"a", "b,\"c\"\n d", ""});
  CHECK(rows.line() == 1);
  REQUIRE(rows.next(cells));
  CHECK(cells == std::vector<std::string>{"", "e"});
  CHECK(rows.line() == 4);
  CHECK_FALSE(rows.next(cells));
  for (const std::string text : {"plain", "a,b", "a\"b", "a\nb", ""}) {
    const std::string line = io::csv_cell(text) + ",x";
    io::CsvRows again(line);
    REQUIRE(again.next(cells));
    CHECK(cells == std::vector<std::string>{text, "x"});
  }
}

TEST_CASE("a folder that is no finished result is told in one line",
          "[compare]") {
  const Scratch scratch;
  const fs::path folder = scratch / "a-out";
  const auto said = [&] {
    return refusal([&] { io::read_kept_folder(folder); });
  };
  CHECK_THAT(said(), Contains("no such folder"));
  put(folder, "a file");
  CHECK_THAT(said(), Contains("is no folder"));
  fs::remove(folder);
  fs::create_directory(folder);
  CHECK_THAT(said(), Contains("no finished results"));
  const solver::Result r = synthetic_result();
  put(folder / "summary.json", summary_text(r));
  CHECK_THAT(said(), StartsWith(folder.string() + ": surface.csv: is missing"));
  const std::string csv = io::surface_csv(r);
  put(folder / "surface.csv", csv.substr(0, csv.size() / 2));
  CHECK_THAT(said(), Contains("where summary.json says"));
  put(folder / "surface.csv", csv);
  CHECK(said() == "not refused");
  CHECK(io::read_kept_folder(folder).name == folder.string());
  // A file of a thousand million rows is not even opened: it is as long as it
  // says, and takes no room on the disk.
  fs::resize_file(folder / "surface.csv", 100'000'000'000);
  CHECK_THAT(said(), Contains("larger than results ever are"));
  fs::resize_file(folder / "summary.json", 9u << 20);
  CHECK_THAT(said(), Contains("summary.json: is larger"));
}
