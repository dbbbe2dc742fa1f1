// What solving large meshes takes: processor time and memory for each node
// (degree of freedom) of a coin's section of 200k to 4M nodes, all of it: the
// matrix, its coarser levels, four fields. Linear work means that they are the
// same at all sizes. Each size has a process of its own, whose peak of memory,
// its mesh included, the system tells. Beside it, where it fits, the factor.
#include "mesh/generate.hpp"
#include "mesh/refine.hpp"
#include "solver/electrode_laws.hpp"
#include "solver/mesh_system.hpp"
#include "tests/bench/run_benchmarks.hpp"
#include "tests/processor_time.hpp"
#include "tests/verification/bench_cases.hpp"

#include <benchmark/benchmark.h>
#include <fmt/format.h>
#include <malloc.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <numeric>
#include <string>
#include <vector>

using namespace thinspot;
using Eigen::Index;
using Eigen::MatrixXd;

namespace {

constexpr double kConductivity = 20;
constexpr int kFields = 4;
constexpr Index kMostFactored = 1'500'000;
const solver::LocalLaws kLaws{2.6e-4, 0};

struct Sized {
  mesh::Mesh mesh;
  solver::Electrodes electrodes;
};

Sized sized(double wanted) {
  const mesh::Section section = mesh::build_section(tests::token().section);
  mesh::Grading grading;
  grading.polarization_length = {5e-3, 0};
  Sized s{mesh::generate(section, grading), {}};
  while (double(s.mesh.nodes.cols()) < 0.99 * wanted) {
    const double share = (wanted / double(s.mesh.nodes.cols()) - 1) / 3;
    std::vector<int> marked(static_cast<std::size_t>(
        std::min(1.0, share) * double(s.mesh.triangles.cols())));
    std::iota(marked.begin(), marked.end(), 0);
    s.mesh = mesh::refined(s.mesh, section, marked);
  }
  s.electrodes = solver::find_electrodes(s.mesh, section);
  return s;
}

/// Of one way in a process of its own.
struct Taken {
  double seconds = 0;  ///< of all its processors
  double bytes = 0;    ///< at its peak
  int cycles = 0;
};

template <class Way>
Taken apart(Way way) {
  malloc_trim(0);
  int ends[2];
  if (pipe(ends) != 0) std::abort();
  const pid_t child = fork();
  if (child < 0) std::abort();
  if (child == 0) {
    const int cycles = way();
    _exit(write(ends[1], &cycles, sizeof cycles) == sizeof cycles ? 0 : 1);
  }
  Taken taken;
  if (read(ends[0], &taken.cycles, sizeof taken.cycles) != sizeof taken.cycles)
    std::abort();
  rusage usage{};
  int status = 0;
  wait4(child, &status, 0, &usage);
  close(ends[0]);
  close(ends[1]);
  taken.seconds = tests::processor_time(usage);
  taken.bytes = 1024.0 * double(usage.ru_maxrss);
  return taken;
}

void report(benchmark::State& state, bool iterated) {
  const Sized s = sized(double(state.range(0)));
  const auto n = double(s.mesh.nodes.cols());
  Taken taken;
  for (auto _ : state) {
    taken = apart([&] {
      const auto rows = std::make_shared<const solver::MeshRows>(
          solver::mesh_rows(s.mesh, s.electrodes.nodes.mesh_node));
      solver::MeshSystem::Entries entries;
      solver::for_each_law_entry(
          s.electrodes, kLaws, [&](int j, int k, double v) {
            entries.emplace_back(j, k, v / kConductivity);
          });
      const solver::MeshSystem system(
          rows, entries, solver::find_fixed(s.electrodes, kLaws).held);
      const auto first =
          static_cast<Index>(s.electrodes.nodes.mesh_node.size());
      MatrixXd loads = solver::unit_loads(s.electrodes, first, kLaws),
               values = solver::held_shares(s.electrodes, first, kLaws);
      loads = loads.replicate(1, 2).eval() / kConductivity;
      values = values.replicate(1, 2).eval();
      return (iterated ? system.solve(loads, values)
                       : system.factored(loads, values))
          .cycles;
    });
    state.SetIterationTime(taken.seconds);
  }
  state.counters["nodes"] = n;
  state.counters["cycles"] = taken.cycles;
  state.counters["us_per_node"] = 1e6 * taken.seconds / n;
  state.counters["bytes_per_node"] = taken.bytes / n;
}

void iterated(benchmark::State& state) { report(state, true); }
void factored(benchmark::State& state) { report(state, false); }

void sizes(benchmark::internal::Benchmark* b, Index most) {
  for (Index n : {200'000, 500'000, 1'000'000, 2'000'000, 4'000'000})
    if (n <= most) b->Arg(n);
  b->UseManualTime()->Iterations(1);
}

BENCHMARK(iterated)->Apply([](auto* b) { sizes(b, 4'000'000); });
BENCHMARK(factored)->Apply([](auto* b) { sizes(b, kMostFactored); });

class Table : public benchmark::BenchmarkReporter {
 public:
  bool ReportContext(const Context& /*context*/) override {
    fmt::print(
        "Solving a coin's section for {} fields, matrix and mesh included\n\n"
        "{:<10} {:>9} {:>7} {:>8} {:>11} {:>10}\n",
        kFields, "", "nodes", "cycles", "us/node", "of first", "bytes/node");
    return true;
  }
  void ReportRuns(const std::vector<Run>& runs) override {
    for (const Run& run : runs) {
      const auto of = [&](const char* name) {
        return run.counters.at(name).value;
      };
      if (row_ != run.run_name.function_name) first_ = of("us_per_node");
      row_ = run.run_name.function_name;
      fmt::print("{:<10} {:>9.0f} {:>7.0f} {:>8.2f} {:>11.2f} {:>10.0f}\n",
                 row_, of("nodes"), of("cycles"), of("us_per_node"),
                 of("us_per_node") / first_, of("bytes_per_node"));
      std::fflush(stdout);
    }
  }

 private:
  std::string row_;
  double first_ = 1;
};

}  // namespace

int main(int argc, char** argv) {
  Table table;
  return bench::run_benchmarks(argc, argv, table) ? 0 : 2;
}
