// Where the time of a whole run goes, stage by stage, each with its floor
// beside it: what the third party alone takes for the same. Processor time, of
// child processes too, as it means more than the clock's where others work; the
// clock's for whole runs, as what is loaded beside other work shows in it
// alone.
#include "io/files_module.hpp"
#include "mesh/kernel.hpp"
#include "mesh/module.hpp"
#include "tests/processor_time.hpp"
#include "tests/scratch_folder.hpp"
#include "viz/contours_module.hpp"

#include <fmt/format.h>

#include <dlfcn.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

using namespace thinspot;

namespace {

constexpr int kTries = 9;
const std::string kProgram = THINSPOT_PROGRAM;
const std::string kCase = THINSPOT_SOURCE_DIR "/cases/token_one_sheet.toml";

struct Taken {
  double processor = 0, clock = 0;  ///< [ms]
};

/// What a child takes for some work, its own children too: the median.
Taken taken(const std::function<void()>& work) {
  std::vector<double> processor, clock;
  for (int k = 0; k < kTries; ++k) {
    const auto start = std::chrono::steady_clock::now();
    const pid_t child = ::fork();
    if (child == 0) {
      work();
      ::_exit(0);
    }
    int status = 0;
    rusage used{};
    if (child < 0 || ::wait4(child, &status, 0, &used) < 0 || status != 0) {
      std::fprintf(stderr, "startup_bench: a run failed\n");
      std::exit(1);
    }
    const std::chrono::duration<double, std::milli> passed =
        std::chrono::steady_clock::now() - start;
    processor.push_back(1e3 * tests::processor_time(used));
    clock.push_back(passed.count());
  }
  const auto median = [](std::vector<double>& all) {
    std::sort(all.begin(), all.end());
    return all[all.size() / 2];
  };
  return {median(processor), median(clock)};
}

std::function<void()> command(const std::string& line) {
  return [line] {
    ::execl("/bin/sh", "sh", "-c", ("exec " + line + " >/dev/null").c_str(),
            nullptr);
    ::_exit(1);
  };
}

std::function<void()> library(const char* name) {
  return [name] {
    if (::dlopen(name, RTLD_NOW) == nullptr) ::_exit(1);
  };
}

std::function<void()> module(const mesh::ModuleFile& file) {
  return [file] { mesh::opened_module(file); };
}

void row(const char* stage, const std::function<void()>& work,
         const char* floor, const std::function<void()>& least) {
  const Taken ours = taken(work), theirs = taken(least);
  fmt::print("{:34} {:7.1f}  {:7.1f} {:6.1f}  {}\n", stage, ours.processor,
             theirs.processor, ours.processor / theirs.processor, floor);
}

}  // namespace

int main() {
  const tests::Scratch scratch;
  const std::string folder = scratch.path().string();
  ::setenv("XDG_CACHE_HOME", (folder + "/cache").c_str(), 1);
  const std::string ours = "'" + kProgram + "' ";
  const auto solve = [&](const std::string& more) {
    return command(ours + "solve '" + kCase + "' --quiet --out '" + folder +
                   "/out' " + more);
  };

  fmt::print("{:34} {:>7}  {:>7} {:>6}\n", "processor time [ms]", "ours",
             "floor", "ratio");
  const auto nothing = command("/bin/true");
  row("--version", command(ours + "--version"), "an empty program", nothing);
  row("--help", command(ours + "--help"), "an empty program", nothing);
  row("check: case and units read, drawn",
      command(ours + "check '" + kCase + "' --out '" + folder + "/drawing'"),
      "an empty program", nothing);
  row("module of the kernel", module(mesh::kernel_file), "Gmsh's library",
      library("libgmsh.so.4.8"));
  row("module that writes files", module(io::files_module), "VTK's writers",
      library("libvtkIOXML-9.1.so.1"));
  row("module of the contours", module(viz::contours_module), "VTK's filters",
      library("libvtkFiltersFlowPaths-9.1.so.1"));
  const auto no_mesh = solve("");
  taken(no_mesh);  // kept from here on
  row("solve, nothing kept", solve("--no-cache"), "the same, all kept",
      no_mesh);
  row("solve, another current", solve("--set supply.current='0.4 A'"),
      "the same, all kept", no_mesh);

  fmt::print("\n{:34} {:>7}\n", "by the clock [ms]", "");
  for (const auto& [what, how] :
       {std::pair("solve, nothing kept", "--no-cache"),
        std::pair("solve, all kept", ""),
        std::pair("solve, another current", "--set supply.current='0.4 A'")})
    fmt::print("{:34} {:7.1f}\n", what, taken(solve(how)).clock);
  return 0;
}
