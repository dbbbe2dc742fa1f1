// Third parties' readers run in a child process.
#include "mesh/outline_packed.hpp"
#include "mesh/whole_file.hpp"
#include "tests/unit/outline_samples.hpp"

#include <catch2/catch.hpp>

#include <fcntl.h>
#include <pthread.h>
#include <sys/stat.h>
#include <sys/time.h>
#include <unistd.h>
#include <csignal>
#include <cstdlib>
#include <filesystem>

using namespace thinspot;
using namespace thinspot::mesh;
using tests::content;
using tests::put;
using tests::Scratch;
namespace fs = std::filesystem;

namespace {

int forks = 0;
int grown = -1;  ///< descriptor of a file that grows

Drawing two_sets() {
  Drawing drawing;
  drawing.metres_per_unit = 1.0 / 3;
  drawing.notes = {"left out: 1 TEXT", ""};
  drawing.add(Curve{{0, 1e-300}, {1, 2}, 0.5, "rim"});
  drawing.sets.emplace_back();
  drawing.add(Curve{{-1, 0}, {1, 0}, 0, ""});
  drawing.add(Curve{{1, 0}, {-1, 0}, -1, "upper rim"});
  return drawing;
}

/// What is wrong, a bar, how to mend it.
std::string said(const std::function<Drawing()>& read) {
  try {
    read_apart(read, "it", 1, "another file");
  } catch (const InputError& error) {
    const Problem& p = error.problems().front();
    return p.key + " | " + p.wrong + " | " + p.mend;
  }
  return "";
}

}  // namespace

TEST_CASE("a drawing read in a child process comes back bit by bit") {
  const Drawing sent = two_sets();
  const Drawing got = read_apart(two_sets, "it", 20, "");
  CHECK(got.metres_per_unit == sent.metres_per_unit);
  CHECK(got.notes == sent.notes);
  REQUIRE(got.sets.size() == 2);
  for (std::size_t n = 0; n < 2; ++n) {
    REQUIRE(got.sets[n].size() == sent.sets[n].size());
    for (std::size_t k = 0; k < got.sets[n].size(); ++k) {
      const Curve &a = got.sets[n][k], &b = sent.sets[n][k];
      CHECK(a.from == b.from);
      CHECK(a.to == b.to);
      CHECK(a.bulge == b.bulge);
      CHECK(a.face == b.face);
    }
  }
  CHECK_FALSE(unpacked(packed(Drawing())).metres_per_unit);
}

TEST_CASE("a reader that is killed, hangs, or eats memory is one line") {
  CHECK(said([]() -> Drawing { std::abort(); }) ==
        "file | cannot be read: it crashed | another file");
  CHECK(said([]() -> Drawing {
          ::raise(SIGKILL);
          return {};
        }) == "file | cannot be read: it crashed | another file");
  CHECK(said([]() -> Drawing {
          for (;;) ::pause();
        }) ==
        "file | cannot be read: it took too long, more than 1 s | another "
        "file");
  CHECK(said([]() -> Drawing { throw std::bad_alloc(); }) ==
        "file | needs more memory than there is | another file");
  CHECK(said([]() -> Drawing { throw 1; }) ==
        "file | is not to be understood | another file");
  CHECK(said([]() -> Drawing { throw InputError("k", "is so", "do"); }) ==
        "file | is so | do");
}

TEST_CASE("what comes from another process is not believed") {
  const std::string whole = packed(two_sets());
  for (std::size_t n = 0; n < whole.size(); ++n)
    CHECK_THROWS_AS(unpacked(whole.substr(0, n)), NoResultError);
  std::string huge = whole;
  for (std::size_t k = huge.size() - 60; k < huge.size(); ++k) huge[k] = '\xff';
  CHECK_THROWS_AS(unpacked(huge), CaseError);
}

TEST_CASE("a DXF is parsed in a process of its own, a CSV is not") {
  REQUIRE(::pthread_atfork([] { ++forks; }, nullptr, nullptr) == 0);
  const std::string shape = tests::line(0, 0, 4, 0) +
                            tests::line(4, 0, 0, 3, "slope") +
                            tests::line(0, 3, 0, 0);
  const int before = forks;
  tests::read_text("a.csv", "x,y\n0,0\n4,0\n2,3\n");
  CHECK(forks == before);
  tests::read_text("a.dxf", tests::dxf(shape));
  CHECK(forks == before + 1);
}

TEST_CASE("files are read whole or not at all") {
  using Fault = WholeFile::Fault;
  const Scratch folder;
  put(folder / "file", "0123456789");
  CHECK(read_whole_file(folder / "file", 10).bytes == "0123456789");
  CHECK(read_whole_file(folder / "file", 9).fault == Fault::too_large);
  CHECK(read_whole_file(folder / "none", 9).fault == Fault::absent);
  CHECK(read_whole_file(folder.path(), 9).fault == Fault::special);
  CHECK(read_whole_file("/dev/zero", 9).fault == Fault::special);
  fs::create_symlink("loop", folder / "loop");
  CHECK(read_whole_file(folder / "loop", 9).fault == Fault::absent);
  REQUIRE(::mkfifo((folder / "pipe").c_str(), 0600) == 0);
  CHECK(read_whole_file(folder / "pipe", 9).fault == Fault::special);
  // The kernel's own: no size, and yet something in it.
  CHECK_FALSE(read_whole_file("/proc/self/status", 100'000).bytes.empty());
  CHECK(read_whole_file("/proc/self/status", 9).fault == Fault::too_large);
}

TEST_CASE("a file that is written all the time is said to change") {
  const Scratch folder;
  put(folder / "file", std::string(10'000'000, 'a'));
  grown = ::open((folder / "file").c_str(), O_WRONLY | O_APPEND | O_CLOEXEC);
  REQUIRE(grown >= 0);
  // This very thread is interrupted, which writes: far more often than the
  // file can be read.
  struct sigaction before {
  }, grow{};
  grow.sa_handler = [](int) { (void)!::write(grown, "b", 1); };
  grow.sa_flags = SA_RESTART;
  REQUIRE(::sigaction(SIGALRM, &grow, &before) == 0);
  const itimerval often{{0, 100}, {0, 100}}, never{};
  ::setitimer(ITIMER_REAL, &often, nullptr);
  const WholeFile read = read_whole_file(folder / "file", 20'000'000);
  ::setitimer(ITIMER_REAL, &never, nullptr);
  ::sigaction(SIGALRM, &before, nullptr);
  ::close(grown);
  CHECK(read.fault == WholeFile::Fault::changing);
  CHECK(read_whole_file(folder / "file", 20'000'000).fault ==
        WholeFile::Fault::none);
}
