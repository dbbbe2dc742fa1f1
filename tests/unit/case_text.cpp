#include "case_text.hpp"

#include "mesh/errors.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <unistd.h>

#include <filesystem>
#include <fstream>

namespace thinspot::tests {

namespace {

/// A folder that goes when the test program ends.
class Folder {
 public:
  Folder()
      : path_(std::filesystem::temp_directory_path() /
              fmt::format("thinspot-unit-{}", getpid())) {
    std::filesystem::create_directories(path_);
  }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

}  // namespace

std::string sound_case() {
  return R"(schema = 1
[tank]
width = "90 mm"
height = "120 mm"
level = "100 mm"
[solution]
metal = "copper"
conductivity = "20 S/m +- 3 S/m"
efficiency = 0.98
[part]
shape = "coin"
diameter = "30 mm"
thickness = "2.4 mm"
edge_radius = "0.3 mm"
at = ["45 mm", "50 mm"]
[[anode]]
name = "sheet"
shape = "plate"
width = "2 mm"
height = "70 mm"
side = "left"
gap = "35 mm"
polarization_resistance = "0 ohm cm2"
[cathode]
polarization_resistance = "2.6 ohm cm2"
polarization_at = "2 A/dm2"
[supply]
current = "0.33 A"
[[step]]
duration = "40 min"
)";
}

std::string with(std::string text, std::string_view piece,
                 std::string_view replacement) {
  const auto at = text.find(piece);
  INFO("looked for: " << piece);
  REQUIRE(at != std::string::npos);
  return text.replace(at, piece.size(), replacement);
}

std::string and_also(const std::string& lines, std::string text) {
  return with(std::move(text), "[cathode]", lines + "[cathode]");
}

std::filesystem::path case_folder() {
  static const Folder folder;
  return folder.path();
}

void put_beside_case(const std::string& name, const std::string& content) {
  std::ofstream(case_folder() / name, std::ios::binary) << content;
}

io::CaseFile read_text(const std::string& text,
                       const std::vector<std::string>& overrides) {
  put_beside_case("case.toml", text);
  return io::read_case(case_folder() / "case.toml", overrides);
}

std::vector<std::string> problems_in(
    const std::string& text, const std::vector<std::string>& overrides) {
  std::vector<std::string> lines;
  try {
    read_text(text, overrides);
  } catch (const InputError& error) {
    for (const Problem& p : error.problems())
      lines.push_back(fmt::format(
          "{}: {}: {}; {}", std::filesystem::path(p.place).filename().string(),
          p.key, p.wrong, p.mend));
  }
  return lines;
}

std::string only_problem(const std::string& text,
                         const std::vector<std::string>& overrides) {
  const std::vector<std::string> lines = problems_in(text, overrides);
  CAPTURE(lines);
  REQUIRE(lines.size() == 1);
  return lines.front();
}

}  // namespace thinspot::tests
