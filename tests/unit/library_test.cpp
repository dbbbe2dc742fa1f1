#include "io/library.hpp"
#include "mesh/errors.hpp"
#include "solver/deposit.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <map>

using namespace thinspot;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinRel;

namespace {

constexpr double kFaraday = 96485.33212;  // [C/mol], exact in the SI of 2019

/// Thickness by Faraday's law of 1 A min/dm2 at 100 % efficiency [um].
double micrometres(const solver::Metal& metal) {
  const double charge = 60 * 100.0;  // [C/m2]
  return 1e6 * charge * metal.molar_mass /
         (metal.electrons * kFaraday * metal.density);
}

}  // namespace

TEST_CASE("The library's metals plate as fast as the handbooks say",
          "[library]") {
  // um per A min/dm2: table "Theoretical precipitation amount of plating",
  // MISUMI surface finishing tutorial no. 166 (2013). It rounds to three
  // digits and takes other densities: 1.5 %.
  const std::map<std::string, double> handbook{
      {"copper", 0.222},       {"copper(I)", 0.443},     {"nickel", 0.205},
      {"zinc", 0.286},         {"tin", 0.506},           {"tin(IV)", 0.253},
      {"silver", 0.639},       {"gold", 0.635},          {"gold(III)", 0.212},
      {"chromium(VI)", 0.076}, {"chromium(III)", 0.152}, {"iron", 0.220},
      {"cobalt", 0.206},       {"cadmium", 0.405},       {"lead", 0.570}};
  const auto metals = io::read_metals(io::library_folder());
  CHECK(metals.size() == handbook.size());
  for (const solver::Metal& metal : metals) {
    CAPTURE(metal.name);
    REQUIRE(handbook.contains(metal.name));
    CHECK_THAT(micrometres(metal), WithinRel(handbook.at(metal.name), 0.015));
    CHECK_FALSE(metal.source.empty());
  }
}

TEST_CASE("Each entry of every library file says where it comes from",
          "[library]") {
  std::map<std::string, int> entries;
  for (const auto& file :
       std::filesystem::directory_iterator(io::library_folder())) {
    std::ifstream in(file.path());
    std::string block, head;
    const auto close = [&] {
      if (head.empty()) return;
      CAPTURE(file.path().filename().string(), block);
      CHECK(block.find("source") != std::string::npos);
      ++entries[file.path().filename().string()];
    };
    for (std::string line; std::getline(in, line);) {
      if (line.starts_with('#')) continue;
      if (line.starts_with("[[")) {
        close();
        head = line;
        block.clear();
      }
      block += line + "\n";
    }
    close();
  }
  // A new file needs a reader that asks for the rest, as these have.
  const std::map<std::string, int> least{
      {"base_metals.toml", 60}, {"metals.toml", 15},
      {"preparation.toml", 30}, {"solutions.toml", 12},
      {"substances.toml", 30},  {"thickness_classes.toml", 50}};
  CHECK(entries.size() == least.size());
  for (const auto& [name, count] : least) {
    CAPTURE(name);
    REQUIRE(entries.contains(name));
    CHECK(entries[name] >= count);
  }
}

TEST_CASE("A broken library is refused with its lines", "[library]") {
  namespace fs = std::filesystem;
  const fs::path folder =
      fs::temp_directory_path() / fmt::format("thinspot-library-{}", getpid());
  fs::create_directories(folder);
  std::ofstream(folder / "metals.toml")
      << "[[metal]]\nname = \"x\"\nmolar_mass = \"63 g\"\nelectrons = 0\n"
         "density = 8\n";
  try {
    io::read_metals(folder);
    FAIL("it was taken");
  } catch (const InputError& error) {
    REQUIRE(error.problems().size() == 4);
    CHECK_THAT(error.problems()[0].wrong, Contains("is missing"));
    CHECK_THAT(error.problems()[1].place, Catch::EndsWith("metals.toml:3"));
    CHECK_THAT(error.problems()[2].wrong, Contains("0 is out of range"));
    CHECK_THAT(error.problems()[3].wrong, Contains("bare number"));
  }
  fs::remove_all(folder);
}
