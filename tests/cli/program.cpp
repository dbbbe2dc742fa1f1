#include "tests/cli/program.hpp"

#include "tests/scratch.hpp"

#include <catch2/catch.hpp>

#include <sys/wait.h>

#include <cstdlib>

namespace thinspot::tests {

namespace {

std::string quoted(const std::string& text) {
  std::string out = "'";
  for (const char c : text) out += c == '\'' ? "'\\''" : std::string(1, c);
  return out + "'";
}

}  // namespace

Run shell(const std::filesystem::path& folder, const std::string& line) {
  const Scratch streams;
  const std::string command =
      "cd " + quoted(folder.string()) +
      " && THINSPOT=" + quoted(THINSPOT_PROGRAM) +
      // Of its own, and empty: what one run keeps is no other's.
      " XDG_CACHE_HOME=" + quoted((streams / "cache").string()) +
      " timeout " THINSPOT_PATIENCE " bash -c " + quoted(line) + " >" +
      quoted((streams / "out").string()) + " 2>" +
      quoted((streams / "err").string()) + " </dev/null";
  const int ended = std::system(command.c_str());
  REQUIRE(WIFEXITED(ended));
  return {WEXITSTATUS(ended), content(streams / "out"),
          content(streams / "err")};
}

Run run_thinspot(const std::filesystem::path& folder,
                 const std::vector<std::string>& arguments) {
  std::string line = "exec \"$THINSPOT\"";
  for (const std::string& a : arguments) line += " " + quoted(a);
  return shell(folder, line);
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

std::string sound_case() {
  return R"(schema = 1
title = "a token"
section = "planar"
view = "side"

[tank]
shape = "box"
width = "90 mm"
height = "120 mm"
level = "100 mm"

[solution]
name = "acid copper"
metal = "copper"
conductivity = "20 S/m"

[part]
shape = "coin"
diameter = "30 mm"
thickness = "2.4 mm"
edge_radius = "0.3 mm"
at = ["45 mm", "50 mm"]
metal = "brass"

[[anode]]
name = "sheet"
shape = "plate"
width = "2 mm"
height = "70 mm"
side = "left"
gap = "35 mm"
metal = "copper"

[cathode]
polarization_resistance = "2.6 ohm cm2"
polarization_at = "2 A/dm2"

[supply]
current = "0.33 A"

[[step]]
duration = "40 min"

[target]
thickness = "5 um"
)";
}

std::string quick_to_plan() {
  return sound_case() +
         "\n[plan]\nmax_turns = 0\nmax_anodes = 1\n"
         "vary = { \"anode.sheet.gap\" = \"20 mm .. 36 mm\", "
         "\"supply.current\" = \"0.2 A .. 0.4 A\" }\n";
}

std::string edited(const std::string& from, const std::string& to) {
  std::string text = sound_case();
  CAPTURE(from);
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  REQUIRE(text.find(from, at + 1) == std::string::npos);
  return text.replace(at, from.size(), to);
}

bool sanitized() { return std::string_view(THINSPOT_PATIENCE) != "60"; }

}  // namespace thinspot::tests
