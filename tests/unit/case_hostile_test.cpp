// Files that no workshop writes: each must end in a refusal, soon and in few
// words, whatever is in it.
#include "case_text.hpp"
#include "io/document.hpp"
#include "io/nesting.hpp"
#include "io/quote.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <random>

using namespace thinspot;
using namespace thinspot::tests;
using Catch::Matchers::Contains;

namespace {

std::string repeated(const std::string& piece, int times) {
  std::string all;
  for (int k = 0; k < times; ++k) all += piece;
  return all;
}

/// Refused, in lines that fit a terminal and without control characters.
void check_refused(const std::string& text, const std::string& says = "") {
  const std::vector<std::string> lines = problems_in(text);
  REQUIRE_FALSE(lines.empty());
  bool said = false;
  for (const std::string& line : lines) {
    if (!io::is_printable(line, 500)) FAIL_CHECK("not printable: " << line);
    said = said || line.find(says) != std::string::npos;
  }
  if (!said) FAIL_CHECK("nobody says \"" << says << "\": " << lines.front());
}

}  // namespace

TEST_CASE("Empty and binary files", "[case_file][hostile]") {
  check_refused("", "says nothing");
  check_refused("\n\n# only words\n", "says nothing");
  check_refused(std::string("schema = 1\n\0\0", 13), "case.toml:2");
  check_refused("title = \"\xff\xfe\"\n", "case.toml:1");
  check_refused("title = \"never closed", "case.toml:1");
  check_refused("title\xc2\x92 = 1\n", "saw '?\?'");
  check_refused(sound_case() + "[part]\n", "case.toml:31");
  std::mt19937 random(7);
  std::uniform_int_distribution<int> byte(0, 255);
  std::string noise;
  for (int k = 0; k < 5000; ++k) noise += static_cast<char>(byte(random));
  check_refused(noise, "case.toml");
}

TEST_CASE("Numbers that are none", "[case_file][hostile]") {
  for (const char* value : {"nan",
                            "inf",
                            "-inf",
                            "1e308",
                            "1e999",
                            "9223372036854775807",
                            "99999999999999999999999",
                            "0x7fffffff",
                            "true",
                            "1979-05-27",
                            "[]",
                            "{}",
                            "\"\"",
                            "\"nan mm\"",
                            "\"inf mm\"",
                            "\"1e999 mm\"",
                            "\"1e308 km\"",
                            "\"-1 mm\"",
                            "\"0 mm\"",
                            "\"1e-300 mm\"",
                            "\"11 m\"",
                            "[\"1 mm\"]"}) {
    CAPTURE(value);
    for (const char* piece :
         {"\"30 mm\"", "\"90 mm\"", "\"35 mm\"", "\"40 min\"", "\"0.33 A\"",
          "\"20 S/m +- 3 S/m\"", "\"2.6 ohm cm2\""}) {
      if (std::string_view(piece) == "\"2.6 ohm cm2\"" &&
          std::string_view(value) == "\"0 mm\"")
        continue;
      check_refused(with(sound_case(), piece, value));
    }
  }
}

TEST_CASE("A megabyte of key, text, comment or tables",
          "[case_file][hostile]") {
  const std::string long_key(999'000, 'k');
  check_refused(long_key + " = 1\n", "is not a table or key");
  check_refused("[part]\n" + long_key + " = 1\n", "is not a key");
  check_refused(fmt::format("\"{}\" = 1\n", repeated("\\n", 400'000)));
  check_refused(with(sound_case(), "sheet", std::string(990'000, 's')),
                "printable");
  check_refused(with(sound_case(), "2.4 mm", std::string(990'000, '9')),
                "too long");
  check_refused(std::string(1'000'001, '#'), "larger than 1 MB");
  check_refused(repeated("[[anode]]\n", 99'000), "at most 200");
  check_refused(
      sound_case() + repeated("[[probe]]\nat=[\"1 mm\",\"1 mm\"]\n", 1001),
      "at most 1000");
  std::string many_keys;
  for (int k = 0; k < 80'000; ++k) many_keys += fmt::format("k{}=1\n", k);
  check_refused(many_keys);
  // More than anybody reads is not gathered.
  CHECK(problems_in(many_keys).size() <= 200);
}

TEST_CASE("Deep nesting does not exhaust the stack", "[case_file][hostile]") {
  check_refused(repeated("a.", 400'000) + "a = 1\n", "nested too deeply");
  check_refused(fmt::format("[{}a]\nb = 1\n", repeated("a.", 400'000)),
                "nested too deeply");
  check_refused("a = " + repeated("[", 400'000), "nested too deeply");
  check_refused(repeated("a = {a.a.a.a = [\n", 50'000), "nested too deeply");
  CHECK(io::line_nested_too_deeply("a = 1\nb = " + repeated("[", 17)) == 2);
}

TEST_CASE("Brackets and dots in texts and comments do not count",
          "[case_file]") {
  const std::string brackets = repeated("[.", 100);
  for (const char* form :
       {"a = \"{0}\"\n", "a = '{0}'\n", "# {0}\nb = 1\n",
        "a = \"\"\"\n\\\"\"\"{0}\"\"\"\n", "a = '''{0}'\n''{0}'''\n",
        "a = \"\\\\\" # \"{0}\n"}) {
    const std::string text = fmt::format(fmt::runtime(form), brackets);
    CAPTURE(text);
    CHECK(io::line_nested_too_deeply(text) == 0);
    CHECK_NOTHROW(io::parse_document(text, "text"));
  }
}

TEST_CASE("What is no ordinary file is not opened", "[case_file][hostile]") {
  namespace fs = std::filesystem;
  const auto refusal = [](const fs::path& path) -> std::string {
    try {
      io::read_document(path);
    } catch (const InputError& error) {
      return error.problems().front().wrong;
    }
    return "taken";
  };
  CHECK(refusal("/no/such/file.toml") == "there is no such file");
  CHECK(refusal("/dev/zero") == "is not an ordinary file");
  CHECK(refusal(fs::temp_directory_path()) == "is not an ordinary file");
  const fs::path pipe =
      fs::temp_directory_path() / ("thinspot-pipe-" + std::to_string(getpid()));
  REQUIRE(mkfifo(pipe.c_str(), 0600) == 0);
  CHECK(refusal(pipe) == "is not an ordinary file");
  fs::remove(pipe);
}

TEST_CASE("A sound case with a byte gone astray ends soundly",
          "[case_file][hostile]") {
  std::mt19937 random(11);
  const std::string sound = sound_case();
  std::uniform_int_distribution<std::size_t> where(0, sound.size() - 1);
  std::uniform_int_distribution<int> byte(0, 255);
  int refused = 0;
  for (int round = 0; round < 500; ++round) {
    std::string text = sound;
    for (int k = 0; k < 1 + round % 3; ++k)
      text[where(random)] = static_cast<char>(byte(random));
    // Anything but a case or a refusal would leave problems_in() by throwing.
    if (!problems_in(text).empty()) ++refused;
  }
  CHECK(refused > 250);
}
