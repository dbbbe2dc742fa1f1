// The cache folder: what is found in it is what was kept, whatever else there
// may be in it, and whoever else writes.

#include "mesh/kept_answers.hpp"

#include "mesh/kernel.hpp"
#include "mesh_samples.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>

#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <filesystem>
#include <string>

using namespace thinspot;
using mesh::KeptAnswers;
namespace fs = std::filesystem;

namespace {

/// The one file in a folder.
fs::path only_file(const fs::path& folder) {
  const auto names = tests::names_in(folder);
  REQUIRE(names.size() == 1);
  return folder / *names.begin();
}

std::uintmax_t all_bytes(const fs::path& folder) {
  std::uintmax_t sum = 0;
  for (const auto& entry : fs::directory_iterator(folder))
    sum += entry.file_size();
  return sum;
}

/// What was not used for so many seconds.
void age(const fs::path& file, int seconds) {
  fs::last_write_time(
      file, fs::file_time_type::clock::now() - std::chrono::seconds(seconds));
}

}  // namespace

TEST_CASE("an answer is found again, by the whole of what was asked") {
  const tests::Scratch scratch;
  const KeptAnswers kept(scratch / "a/thinspot");
  CHECK(kept.is_empty());
  CHECK_FALSE(kept.find("question"));
  const std::string answer("an\0swer", 7);
  kept.keep("question", answer);
  CHECK_FALSE(kept.is_empty());
  CHECK(kept.find("question") == answer);
  CHECK_FALSE(kept.find("question "));
  CHECK_FALSE(kept.find("questio"));
  kept.keep("question", "another");
  CHECK(kept.find("question") == "another");
  struct stat s {};
  REQUIRE(::stat((scratch / "a/thinspot").c_str(), &s) == 0);
  CHECK((s.st_mode & 0777) == 0700);
  const KeptAnswers nowhere(scratch / "no/home/thinspot");
  nowhere.keep("question", answer);
  CHECK_FALSE(fs::exists(scratch / "no"));
}

TEST_CASE("where nothing is to be kept, nothing is found") {
  const KeptAnswers none;
  none.keep("question", "answer");
  CHECK_FALSE(none.find("question"));
  CHECK(none.is_empty());
}

TEST_CASE(
    "a kept file that is damaged in any byte is as if it were not there") {
  const std::string bytes = mesh::kept_bytes("question", "answer");
  CHECK(mesh::answer_in(bytes, "question") == "answer");
  for (std::size_t k = 0; k < bytes.size(); ++k) {
    std::string damaged = bytes;
    damaged[k] = static_cast<char>(damaged[k] ^ 1);
    CHECK_FALSE(mesh::answer_in(damaged, "question"));
    CHECK_FALSE(mesh::answer_in(bytes.substr(0, k), "question"));
  }
  CHECK_FALSE(mesh::answer_in(bytes + "x", "question"));
  CHECK_FALSE(mesh::answer_in(bytes, "question2"));

  const tests::Scratch scratch;
  const KeptAnswers kept(scratch / "kept");
  kept.keep("question", "answer");
  tests::put(only_file(scratch / "kept"), "rubbish");
  CHECK_FALSE(kept.find("question"));
  kept.keep("question", "answer");
  CHECK(kept.find("question") == "answer");
}

TEST_CASE("links, pipes and what others may write to are left alone") {
  const tests::Scratch scratch;
  const fs::path folder = scratch / "kept";
  const KeptAnswers kept(folder);
  kept.keep("question", "answer");
  const fs::path file = only_file(folder);

  SECTION("a file that is a link") {
    fs::rename(file, scratch / "elsewhere");
    fs::create_symlink(scratch / "elsewhere", file);
    CHECK_FALSE(kept.find("question"));
    // It is replaced, and what it led to is as it was.
    const std::string before = tests::content(scratch / "elsewhere");
    kept.keep("question", "new");
    CHECK(kept.find("question") == "new");
    CHECK(tests::content(scratch / "elsewhere") == before);
  }
  SECTION("a pipe, which nobody writes to") {
    fs::remove(file);
    REQUIRE(::mkfifo(file.c_str(), 0600) == 0);
    CHECK_FALSE(kept.find("question"));
  }
  SECTION("a file that all may write to") {
    REQUIRE(::chmod(file.c_str(), 0666) == 0);
    CHECK_FALSE(kept.find("question"));
  }
  SECTION("a folder that all may write to") {
    REQUIRE(::chmod(folder.c_str(), 0777) == 0);
    CHECK_FALSE(kept.find("question"));
    kept.keep("more", "answer");
    CHECK(tests::names_in(folder).size() == 1);
  }
  SECTION("a folder that is a link") {
    fs::create_directory_symlink(folder, scratch / "link");
    const KeptAnswers through(scratch / "link");
    CHECK_FALSE(through.find("question"));
    through.keep("more", "answer");
    CHECK(tests::names_in(folder).size() == 1);
  }
  SECTION("a file in place of the folder") {
    tests::put(scratch / "file", "mine");
    const KeptAnswers at(scratch / "file");
    at.keep("question", "answer");
    CHECK_FALSE(at.find("question"));
    CHECK(tests::content(scratch / "file") == "mine");
  }
}

TEST_CASE("what was not asked for longest makes room") {
  const tests::Scratch scratch;
  const fs::path folder = scratch / "kept";
  const std::string answer(1000, 'x');
  const KeptAnswers kept(folder, 5000);
  for (int k = 0; k < 4; ++k) {
    const auto before =
        k == 0 ? std::set<std::string>() : tests::names_in(folder);
    kept.keep(std::to_string(k), answer);
    for (const std::string& name : tests::names_in(folder))
      if (!before.contains(name)) age(folder / name, 100 - 10 * k);
  }
  CHECK(kept.find("0"));  // the oldest is of use again
  kept.keep("4", answer);
  CHECK(all_bytes(folder) <= 5000);
  CHECK(kept.find("0"));
  CHECK_FALSE(kept.find("1"));
  CHECK(kept.find("4"));
  // One that would put out all others is not kept.
  kept.keep("large", std::string(3000, 'x'));
  CHECK_FALSE(kept.find("large"));
  // Nor does anything stay for ever that somebody left half written.
  tests::put(folder / "0.1.1.half", "ha");
  tests::put(folder / "0.1.2.half", "ha");
  age(folder / "0.1.1.half", 7200);
  tests::put(folder / "mine.txt", "not of the cache");
  kept.keep("5", answer);
  CHECK_FALSE(fs::exists(folder / "0.1.1.half"));
  CHECK(fs::exists(folder / "0.1.2.half"));
  CHECK(fs::exists(folder / "mine.txt"));
}

TEST_CASE("several processes keep the same and others at once") {
  const tests::Scratch scratch;
  const KeptAnswers kept(scratch / "kept", 20'000);
  constexpr int processes = 4;
  for (int p = 0; p < processes; ++p)
    if (::fork() == 0) {
      int wrong = 0;
      for (int k = 0; k < 200; ++k) {
        const std::string question = std::to_string(k % 7);
        kept.keep(question, std::string(900, question.front()));
        const auto found = kept.find(question);
        wrong += found && *found != std::string(900, question.front());
      }
      ::_exit(wrong);
    }
  for (int p = 0; p < processes; ++p) {
    int status = 0;
    REQUIRE(::wait(&status) > 0);
    CHECK(status == 0);
  }
  for (const std::string& name : tests::names_in(scratch / "kept"))
    CHECK(name.ends_with(".kept"));
}

TEST_CASE("a kept cut that cannot be one is made anew and replaced") {
  struct Nowhere {
    ~Nowhere() { mesh::keep_kernel_answers({}); }
  } const afterwards;
  const tests::Scratch scratch;
  const KeptAnswers kept(scratch / "kept");
  mesh::keep_kernel_answers(kept);
  const mesh::Section section = tests::meshed_plates().section;
  std::vector<mesh::Outline> outlines{section.liquid_bounds};
  for (const auto& s : section.solids) outlines.push_back(s.outline);
  const std::string key = mesh::kernel_key('c', packed(outlines));
  const std::string sound = packed(mesh::ask_for_cut(outlines));
  REQUIRE(kept.find(key) == sound);
  for (const std::string& rubbish :
       {std::string(), std::string("rubbish"), sound + "x"}) {
    kept.keep(key, rubbish);
    CHECK(packed(mesh::ask_for_cut(outlines)) == sound);
    CHECK(kept.find(key) == sound);
  }
  // Believed where it can be.
  std::vector<mesh::CutPiece> fewer = mesh::ask_for_cut(outlines);
  fewer.pop_back();
  kept.keep(key, packed(fewer));
  CHECK(mesh::ask_for_cut(outlines).size() == fewer.size());
}
