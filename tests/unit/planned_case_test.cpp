// A planned set-up as a case file: it reads as planned, and the user's text is
// kept.
#include "io/planned_case.hpp"
#include "case_text.hpp"
#include "io/document.hpp"
#include "io/planned_pieces.hpp"
#include "mesh/errors.hpp"
#include "planned_changes.hpp"
#include "solver/plan_variables.hpp"
#include "tests/scratch.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <filesystem>
#include <sstream>

using namespace thinspot;
using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;
using io::DrawnCase;
using solver::Case;
namespace fs = std::filesystem;

namespace {

DrawnCase drawn_case(const fs::path& file,
                     const std::vector<std::string>& overrides = {}) {
  return {file, io::document_text(file), overrides,
          io::read_case(file, overrides).content};
}

DrawnCase drawn_text(const std::string& text,
                     const std::vector<std::string>& overrides = {}) {
  put_beside_case("case.toml", text);
  return drawn_case(case_folder() / "case.toml", overrides);
}

/// The written file, read where a plan would put it.
Case read_again(const io::PlannedCase& written) {
  const Scratch scratch;
  put(scratch / "planned.toml", written.text);
  for (const io::CopiedDrawing& d : written.drawings)
    fs::copy_file(d.from, scratch / d.name);
  return io::read_case(scratch / "planned.toml").content;
}

std::string text_of(const DrawnCase& drawn, const Case& planned) {
  return io::planned_case(drawn, planned, "by hand").text;
}

std::vector<fs::path> shipped() {
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(THINSPOT_SOURCE_DIR "/cases"))
    if (entry.path().extension() == ".toml") files.push_back(entry.path());
  REQUIRE(files.size() > 15);
  return files;
}

/// Lines that hold a comment and nothing else.
std::vector<std::string> comments_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);)
    if (line.starts_with('#')) lines.push_back(line);
  return lines;
}

bool holds_in_order(const std::string& text,
                    const std::vector<std::string>& lines) {
  std::size_t at = 0;
  for (const std::string& line : lines) {
    at = text.find(line, at);
    if (at == std::string::npos) return false;
  }
  return true;
}

}  // namespace

TEST_CASE("Every shipped case takes every kind of change", "[planned]") {
  for (const fs::path& file : shipped()) {
    const DrawnCase drawn = drawn_case(file);
    for (const Change& change : plan_changes()) {
      CAPTURE(file.filename().string(), change.name);
      Case planned = drawn.content;
      if (!change.make(planned)) continue;
      io::PlannedCase written;
      REQUIRE_NOTHROW(written = io::planned_case(drawn, planned, "by hand"));
      CHECK(io::first_difference(planned, read_again(written)) == "");
      CHECK(holds_in_order(written.text, comments_of(drawn.text)));
      // What was planned shows: the comparison is not blind.
      if (change.name != std::string("nothing"))
        CHECK(io::first_difference(planned, drawn.content) != "");
      else
        CHECK(written.text ==
              fmt::format("# Made by thinspot plan from {}: by hand.\n"
                          "# A line that the plan changed ends with what it "
                          "was.\n\n{}",
                          file.filename().string(), drawn.text));
    }
  }
}

TEST_CASE("A gap changes in its line and nothing else does", "[planned]") {
  const DrawnCase drawn = drawn_text(sound_case());
  Case planned = drawn.content;
  planned.section.solids[1].gap = 0.022;
  CHECK_THAT(text_of(drawn, planned),
             Contains(with(sound_case(), "gap = \"35 mm\"",
                           "gap = \"22 mm\"  # was 35 mm")));
}

TEST_CASE("What is planned goes with nothing else's doubt", "[planned]") {
  const std::string pairs =
      "[[correlated]]\nof = [\"solution.conductivity\", "
      "\"cathode.polarization_resistance\"]\nby = 0.5\n"
      "[[correlated]]\nof = [\"supply.current\", "
      "\"cathode.polarization_resistance\"]\nby = -0.2\n";
  const DrawnCase drawn =
      drawn_text(with(with(sound_case(), "\"0.33 A\"", "\"0.33 A +- 0.01 A\""),
                      "\"2.6 ohm cm2\"", "\"2.6 ohm cm2 +- 1 ohm cm2\"") +
                 pairs);
  Case planned = drawn.content;
  REQUIRE(planned.correlated.size() == 2);
  planned.supply.current = solver::Quantity{0.4, 0};
  const Case read = read_again(io::planned_case(drawn, planned, "by hand"));
  REQUIRE(read.correlated.size() == 1);
  CHECK(read.correlated[0].of[0] == "solution.conductivity");
  CHECK(read.supply.current->value == Approx(0.4));
}

TEST_CASE("Half a point that stays is left as it is written", "[planned]") {
  const DrawnCase drawn = drawn_text(
      with(sound_case(), "\"45 mm\", \"50 mm\"", "\"4.5 cm\", \"50 mm\""));
  Case planned = drawn.content;
  solver::place_value(planned, "part.at.y", 0.0525);
  CHECK_THAT(text_of(drawn, planned),
             Contains("at = [\"4.5 cm\", \"52.5 mm\"]  # was 4.5 cm, 50 mm"));
}

TEST_CASE("A turn is a second step", "[planned]") {
  const DrawnCase drawn = drawn_text(sound_case());
  Case planned = drawn.content;
  planned.steps.front().duration = {1080, 0};
  planned.steps.push_back(planned.steps.front());
  planned.steps.back().motion.flip = true;
  CHECK_THAT(text_of(drawn, planned),
             Contains("[[step]]\nduration = \"18 min\"  # was 40 min\n\n"
                      "[[step]]  # new\nflip = true\n"));
}

TEST_CASE("What is noted beside a step goes with the step", "[planned]") {
  const DrawnCase drawn =
      drawn_text(sound_case() +
                 "\n[[step]]\nduration = \"9 min\"  # the other face\n"
                 "flip = true\n\n[[step]]\nflip = false  # back again\n");
  Case planned = drawn.content;
  REQUIRE(planned.steps.size() == 3);
  planned.steps[1].duration = {600, 0};
  CHECK_THAT(text_of(drawn, planned),
             Contains("duration = \"10 min\"  # the other face  # was 9 min"));
  planned.steps[1].motion = {true, std::numbers::pi};
  const std::string text = text_of(drawn, planned);
  CHECK_THAT(text, Contains("# taken out: [[step]] 2\n\n"
                            "# taken out: [[step]] 3\n\n"
                            "[[step]]  # new\nduration = \"10 min\"\nflip = "
                            "true\nturn = \"180 deg\"\n"));
  CHECK(text.find("the other face") == std::string::npos);
  CHECK(text.find("back again") == std::string::npos);
}

TEST_CASE("What --set said is in the file too", "[planned]") {
  const DrawnCase drawn = drawn_text(
      sound_case(), {"part.diameter=25 mm", "supply.voltage=1.5 V",
                     "target.thickness=8 um", "title=2024", "part.at.x=44 mm"});
  Case planned = drawn.content;
  planned.supply.voltage->value = 1.2;
  const io::PlannedCase written = io::planned_case(drawn, planned, "by hand");
  CHECK_THAT(written.text,
             Contains("diameter = \"25 mm\"  # was 30 mm") &&
                 Contains("voltage = \"1.2 V\"  # in place of current") &&
                 Contains("[target]  # new\nthickness = \"8 um\"") &&
                 Contains("title = \"2024\"  # new"));
  const Case read = read_again(written);
  CHECK(read.section.solids[0].sizes.at("diameter") == 0.025);
  CHECK(read.title == "2024");
  CHECK(io::first_difference(planned, read) == "");
}

TEST_CASE("A plan of a plan has one head", "[planned]") {
  const DrawnCase drawn = drawn_text(sound_case());
  Case planned = drawn.content;
  planned.section.solids[1].gap = 0.022;
  const DrawnCase again = drawn_text(text_of(drawn, planned));
  planned.section.solids[1].gap = 0.021;
  const std::string text = text_of(again, planned);
  CHECK_THAT(text, StartsWith("# Made by thinspot plan from case.toml"));
  CHECK(text.find("# Made by", 1) == std::string::npos);
  CHECK_THAT(text, Contains("gap = \"21 mm\"  # was 22 mm\n"));
}

TEST_CASE("Numbers where tables have no name stay what they are called by",
          "[planned]") {
  const std::string sheet =
      "[[anode]]\nshape = \"plate\"\nwidth = \"2 mm\"\nheight = \"70 mm\"\n"
      "at = [\"{} mm\", \"50 mm\"]\n";
  std::string text = with(sound_case(), "name = \"sheet\"\n", "");
  text = and_also(fmt::format(fmt::runtime(sheet), 80) +
                      fmt::format(fmt::runtime(sheet), 70),
                  text);
  const DrawnCase drawn = drawn_text(text);
  Case planned = drawn.content;
  REQUIRE(lose_anode(planned));
  const Case read = read_again(io::planned_case(drawn, planned, "by hand"));
  REQUIRE(read.anodes.size() == 2);
  CHECK(read.anodes[0].name == "2");
  CHECK(read.section.solids[read.anodes[1].solid].at.x() == 0.07);
}

TEST_CASE("Drawings are named beside the new file", "[planned]") {
  const fs::path folder = case_folder() / "sub";
  fs::create_directories(folder);
  const std::string square = "x_mm,y_mm\n0,0\n20,0\n20,20\n0,20\n";
  put(folder / "part.csv", square);
  put(case_folder() / "part.csv", square);
  std::string text = with(sound_case(),
                          "shape = \"coin\"\ndiameter = \"30 mm\"\nthickness "
                          "= \"2.4 mm\"\nedge_radius = \"0.3 mm\"\n",
                          "shape = \"outline\"\nfile = \"sub/part.csv\"\narea "
                          "= \"10 cm2\"\n");
  text = and_also(
      "[[shield]]\nshape = \"outline\"\nfile = \"part.csv\"\nat = "
      "[\"75 mm\", \"50 mm\"]\n",
      text);
  const DrawnCase drawn = drawn_text(text);
  Case planned = drawn.content;
  planned.section.solids[1].gap = 0.03;
  const io::PlannedCase written = io::planned_case(drawn, planned, "by hand");
  REQUIRE(written.drawings.size() == 2);
  CHECK(written.drawings[0].name == "part.csv");
  CHECK(written.drawings[1].name == "2-part.csv");
  CHECK_THAT(written.text, Contains("file = \"2-part.csv\"  # was part.csv"));
  CHECK(io::first_difference(planned, read_again(written)) == "");
}

TEST_CASE("What cannot be written is said, not written otherwise",
          "[planned]") {
  const DrawnCase drawn = drawn_text(sound_case());
  Case other_metal = drawn.content;
  REQUIRE(add_anode(other_metal));
  other_metal.anodes.back().metal = "lead";
  CHECK_THROWS_AS(io::planned_case(drawn, other_metal, "x"), NoResultError);
  // An anode that the part stands in is nothing that a step can be read with.
  Case no_limit = drawn.content;
  no_limit.steps.push_back(no_limit.steps.front());
  no_limit.steps.back().off = {"sheet"};
  CHECK_THROWS_WITH(io::planned_case(drawn, no_limit, "x"),
                    Contains("cannot be written as a case file") &&
                        Contains("leaves no anode at work"));
}
