// A planned set-up as a case file: it reads as planned, and the user's text is
// kept.
#include "io/planned_case.hpp"
#include "case_text.hpp"
#include "io/document.hpp"
#include "io/planned_pieces.hpp"
#include "mesh/errors.hpp"
#include "solver/plan_variables.hpp"
#include "solver/step_case.hpp"
#include "tests/scratch.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <filesystem>
#include <functional>
#include <numbers>
#include <sstream>

using namespace thinspot;
using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;
using io::DrawnCase;
using mesh::Role;
using mesh::Solid;
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

struct Change {
  const char* name;
  /// @returns false where the case has nothing of the kind
  std::function<bool(Case&)> make;
};

bool each_anode(Case& c, const std::function<bool(Solid&)>& change) {
  bool any = false;
  for (const solver::Anode& a : c.anodes)
    any = change(c.section.solids[a.solid]) || any;
  return any;
}

bool move_part(Case& c) {
  if (c.rack) return false;
  const bool axis = c.section.cut == mesh::Cut::axisymmetric;
  const std::string key = axis ? "part.at.y" : "part.at.x";
  solver::place_value(c, key, *solver::placed_value(c, key) + 1.5e-3);
  return true;
}

bool add_anode(Case& c) {
  solver::Anode anode = c.anodes.front();
  Solid solid = c.section.solids[anode.solid];
  anode.name = solid.name = "one \"more\"";
  solid.key = "anode." + solid.name;
  solid.at.y() += 3e-3;
  solid.gap += 2e-3;
  anode.solid = c.section.solids.size();
  c.section.solids.push_back(solid);
  c.anodes.push_back(anode);
  return true;
}

bool lose_anode(Case& c) {
  if (c.anodes.size() < 2 || !c.rectifiers.empty()) return false;
  for (const solver::Step& s : c.steps)
    if (!s.off.empty() || !s.lifted.empty()) return false;
  Case one = c;
  one.steps = {solver::Step{c.steps.front().duration}};
  one.steps.front().lifted = {c.anodes.front().name};
  const Case fewer = solver::case_of_step(one, 0);
  c.section.solids = fewer.section.solids;
  c.section.masks = fewer.section.masks;
  c.anodes = fewer.anodes;
  c.thieves = fewer.thieves;
  c.floating = fewer.floating;
  c.clips = fewer.clips;
  return true;
}

bool add_spares(Case& c) {
  for (const bool thief : {false, true}) {
    Solid solid;
    solid.role = thief ? Role::thief : Role::shield;
    solid.name = thief ? "thief 2" : "shield 2";
    solid.key = (thief ? "thief." : "shield.") + solid.name;
    solid.shape = thief ? "rod" : "plate";
    solid.sizes = thief ? mesh::Sizes{{"diameter", 2e-3}}
                        : mesh::Sizes{{"width", 2e-3}, {"height", 0.03}};
    if (c.section.cut == mesh::Cut::axisymmetric && thief)
      solid.sizes["length"] = 0.01;
    const bool axis = c.section.cut == mesh::Cut::axisymmetric;
    solid.at = {axis ? 0.0 : 12.3456e-3, 9e-3};
    if (thief)
      c.thieves.push_back({solid.name, c.section.solids.size(), {}, {}});
    c.section.solids.push_back(solid);
  }
  return true;
}

std::vector<Change> changes() {
  const double pi = std::numbers::pi;
  return {
      {"nothing", [](Case&) { return true; }},
      {"times",
       [](Case& c) {
         for (solver::Step& s : c.steps)
           s.duration = {0.37 * s.duration.value + 7, 0};
         return true;
       }},
      {"currents",
       [](Case& c) {
         const auto scale = [](solver::Supply& s) {
           for (auto* q : {&s.current, &s.current_density, &s.voltage})
             if (*q) (*q)->value *= 1.371;
         };
         scale(c.supply);
         for (auto& r : c.rectifiers) scale(r.supply);
         for (solver::Step& s : c.steps) {
           if (s.supply) scale(*s.supply);
           if (s.rectifiers)
             for (auto& supply : *s.rectifiers) scale(supply);
         }
         return true;
       }},
      {"a voltage in place of a current",
       [](Case& c) {
         if (!c.rectifiers.empty() || c.supply.adapter) return false;
         c.supply.current.reset();
         c.supply.current_density.reset();
         c.supply.voltage = solver::Quantity{1.25, 0.05};
         return true;
       }},
      {"places of anodes",
       [](Case& c) {
         const bool axis = c.section.cut == mesh::Cut::axisymmetric;
         return each_anode(c, [&](Solid& s) {
           if (s.side)
             s.gap *= 0.9;
           else
             s.at += mesh::Point(axis ? 0 : 1.25e-3, 1e-3 / 3);
           return true;
         });
       }},
      {"anodes by their centre",
       [](Case& c) {
         return each_anode(c, [&](Solid& s) {
           const bool beside = s.side.has_value();
           s.side.reset();
           s.gap = 0;
           if (beside) s.at = {4e-3, 50e-3};
           return beside;
         });
       }},
      {"another side",
       [](Case& c) {
         return each_anode(c, [&](Solid& s) {
           if (!s.side) return false;
           s.side = s.side == mesh::Side::left ? mesh::Side::right
                                               : mesh::Side::above;
           return true;
         });
       }},
      {"sizes of anodes",
       [](Case& c) {
         return each_anode(c, [](Solid& s) {
           const auto height = s.sizes.find("height");
           if (height == s.sizes.end()) return false;
           height->second *= 0.8;
           return true;
         });
       }},
      {"turns of anodes",
       [&, pi](Case& c) {
         if (c.section.cut == mesh::Cut::axisymmetric) return false;
         return each_anode(c, [pi](Solid& s) {
           s.turn += pi / 7;
           return true;
         });
       }},
      {"a rod in place of an anode",
       [](Case& c) {
         const bool axis = c.section.cut == mesh::Cut::axisymmetric;
         Solid& s = c.section.solids[c.anodes.front().solid];
         if (s.shape == "rod") return false;
         s.shape = "rod";
         s.sizes = {{"diameter", 8e-3}};
         if (axis) s.sizes["length"] = 0.02;
         s.drawn = {};
         s.side.reset();
         s.gap = 0;
         s.turn = 0;
         s.at = {axis ? 0 : 10e-3, 40e-3};
         return true;
       }},
      {"the part's place", move_part},
      {"one anode more", add_anode},
      {"one anode less", lose_anode},
      {"a shield and a thief", add_spares},
      {"the level",
       [](Case& c) {
         if (c.section.cut == mesh::Cut::plan) return false;
         c.section.tank.level *= 0.975;
         return true;
       }},
      {"one step",
       [](Case& c) {
         solver::Step s = c.steps.front();
         s.duration = {1501, 0};
         s.motion = {};
         s.turning.reset();
         c.steps = {s};
         return true;
       }},
      {"four steps that turn",
       [pi](Case& c) {
         if (c.section.cut == mesh::Cut::axisymmetric) return false;
         solver::Step s = c.steps.front();
         s.turning.reset();
         c.steps.clear();
         for (int k = 0; k < 4; ++k) {
           s.duration = {k < 2 ? 660.0 : 590.0, 0};
           s.motion = c.section.cut == mesh::Cut::side
                          ? mesh::Motion{k % 2 == 1, k > 1 ? pi : 0}
                          : mesh::Motion{false, 2 * pi * k / 3};
           c.steps.push_back(s);
         }
         return true;
       }},
      {"a motor",
       [](Case& c) {
         if (c.section.cut == mesh::Cut::axisymmetric || c.growth) return false;
         c.steps.front().turning = solver::Turning{0, 0, 0.1};
         for (solver::Step& s : c.steps) s.turning = c.steps.front().turning;
         c.steps.push_back(c.steps.back());
         c.steps.back().turning = solver::Turning{4, 30, 0};
         c.steps.push_back(c.steps.back());
         c.steps.back().turning.reset();
         return true;
       }},
      {"another current in the second step",
       [](Case& c) {
         if (!c.rectifiers.empty() || c.supply.adapter) return false;
         c.steps.resize(1);
         c.steps.push_back(c.steps.front());
         solver::Supply s = c.steps.front().supply.value_or(c.supply);
         s.current = solver::Quantity{0.123, 0};
         s.current_density.reset();
         s.voltage.reset();
         s.voltage_limit = 5;
         c.steps.back().supply = s;
         c.steps.push_back(c.steps.front());
         if (!c.steps.back().supply) c.steps.back().supply = c.supply;
         c.steps.back().supply->voltage_limit = 5.5;
         return true;
       }},
      {"much at once",
       [](Case& c) {
         move_part(c);
         add_anode(c);
         add_spares(c);
         for (solver::Step& s : c.steps) s.duration = {1234, 0};
         c.steps.push_back(c.steps.back());
         return true;
       }},
  };
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
    for (const Change& change : changes()) {
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
