// A case that is read many times: from a document, with lists of the library
// that are read once.
#include "io/case_file.hpp"
#include "io/document.hpp"
#include "io/library.hpp"
#include "io/library_compounds.hpp"
#include "io/library_solutions.hpp"
#include "io/planned_pieces.hpp"
#include "io/thickness_classes.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <filesystem>
#include <set>
#include <string>
#include <vector>

using namespace thinspot;
namespace fs = std::filesystem;

namespace {

std::set<fs::path> shipped_cases() {
  std::set<fs::path> files;
  for (const auto& entry : fs::directory_iterator(THINSPOT_SOURCE_DIR "/cases"))
    if (entry.path().extension() == ".toml") files.insert(entry.path());
  return files;
}

/// Sets of --set, sound ones and such as some or all cases refuse.
const std::vector<std::vector<std::string>> kOverrides{
    {},
    {"title=again", "solution.temperature=31 degC"},
    {"part.at=[\"44 mm\", \"51 mm\"]"},
    {"part.at.x=44 mm"},
    {"solution.use=acid copper"},
    {"solution.use=acid coper", "part.diametr=27 mm"},
    {"solution.made_of.water=600 ml"},
    {"solution.metal=unobtainium"},
    {"target.standard=ASTM B633", "target.class=Fe/Zn 8"},
    {"target.standard=ASTM B633", "target.class=Fe/Zn 9"},
    {"tank.level=3 kg", "no key"}};

std::vector<std::string> told(const InputError& error) {
  std::vector<std::string> lines;
  for (const Problem& p : error.problems())
    lines.push_back(p.place + "|" + p.key + "|" + p.wrong + "|" + p.mend);
  return lines;
}

/// Everything in words that a case was read to be, and every quantity.
std::vector<std::string> told(io::CaseFile file) {
  solver::Case& c = file.content;
  std::vector<std::string> lines{file.path,
                                 c.title,
                                 c.file,
                                 c.part_metal,
                                 c.solution.name,
                                 c.solution.metal.source,
                                 c.target.thickness_source};
  for (const auto& [key, line] : file.lines)
    lines.push_back(fmt::format("{}:{}", key, line));
  for (const solver::Assumption& a : c.assumed)
    lines.push_back(a.key + "|" + a.value + "|" + a.why);
  for (const solver::Provenance& p : c.solution.sources)
    lines.push_back(p.key + "|" + p.source + "|" + p.sure);
  lines.insert(lines.end(), c.notes.begin(), c.notes.end());
  solver::for_each_quantity(
      c, [&](const std::string& key, const solver::Quantity& q) {
        lines.push_back(
            fmt::format("{} {} {} {}", key, q.value, q.plus_minus, q.evenly));
      });
  return lines;
}

}  // namespace

TEST_CASE("A case reads from its document as from its file", "[case_file]") {
  int sound = 0, refused = 0;
  for (const fs::path& file : shipped_cases()) {
    const io::Node document = io::read_document(file);
    for (const auto& overrides : kOverrides) {
      CAPTURE(file.string(), overrides);
      std::vector<std::string> expected, problems;
      solver::Case of_file;
      try {
        const io::CaseFile read = io::read_case(file, overrides);
        expected = told(read);
        of_file = read.content;
      } catch (const InputError& error) {
        problems = told(error);
      }
      try {
        const io::CaseFile read = io::read_case(document, file, overrides);
        CHECK(told(read) == expected);
        CHECK(io::first_difference(of_file, read.content).empty());
        ++sound;
      } catch (const InputError& error) {
        CHECK(told(error) == problems);
        ++refused;
      }
    }
  }
  CHECK(sound > 50);
  CHECK(refused > 50);
}

TEST_CASE("One reading leaves nothing to the next", "[case_file]") {
  const fs::path file = THINSPOT_SOURCE_DIR "/cases/token_one_sheet.toml";
  const io::Node document = io::read_document(file);
  const auto plain = told(io::read_case(document, file, {}));
  const auto warm =
      told(io::read_case(document, file, {"solution.temperature=31 degC"}));
  CHECK(warm != plain);
  CHECK_THROWS_AS(io::read_case(document, file, {"tank.level=3 kg"}),
                  InputError);
  CHECK(told(io::read_case(document, file, {})) == plain);
}

TEST_CASE("The library that is kept is the one in its folder", "[library]") {
  const fs::path folder = io::library_folder();
  const auto metals = io::read_metals(folder);
  REQUIRE(io::library_metals().size() == metals.size());
  for (std::size_t k = 0; k < metals.size(); ++k) {
    const solver::Metal& kept = io::library_metals()[k];
    CHECK(kept.name == metals[k].name);
    CHECK(kept.molar_mass == metals[k].molar_mass);
    CHECK(kept.electrons == metals[k].electrons);
    CHECK(kept.density == metals[k].density);
    CHECK(kept.source == metals[k].source);
  }
  const auto solutions = io::read_solutions(folder);
  REQUIRE(io::library_solutions().size() == solutions.size());
  for (std::size_t k = 0; k < solutions.size(); ++k) {
    const io::SolutionEntry& kept = io::library_solutions()[k];
    CHECK(kept.name == solutions[k].name);
    CHECK(kept.composition == solutions[k].composition);
    CHECK(kept.conductivity == solutions[k].conductivity);
    CHECK(kept.polarization == solutions[k].polarization);
    CHECK(kept.notes == solutions[k].notes);
  }
  const auto compounds = io::read_compounds(folder);
  REQUIRE(io::library_compounds().size() == compounds.size());
  for (std::size_t k = 0; k < compounds.size(); ++k) {
    const solver::Compound& kept = io::library_compounds()[k];
    CHECK(kept.name == compounds[k].name);
    CHECK(kept.molar_mass == compounds[k].molar_mass);
    CHECK(kept.table.conductivity == compounds[k].table.conductivity);
    CHECK(kept.source == compounds[k].source);
  }
  const auto classes = io::read_thickness_classes(folder);
  REQUIRE(io::library_classes().size() == classes.size());
  for (std::size_t k = 0; k < classes.size(); ++k) {
    const io::ThicknessClass& kept = io::library_classes()[k];
    CHECK(kept.standard + kept.name == classes[k].standard + classes[k].name);
    CHECK(kept.thickness == classes[k].thickness);
    CHECK(kept.source == classes[k].source);
  }
}
