// Time to refine the mesh of a coin's section to 200k, 1M and 4M nodes (degrees
// of freedom), for each node of the mesh that comes out. Linear work means that
// it is the same at all sizes.
#include "mesh/generate.hpp"
#include "mesh/refine.hpp"
#include "tests/bench/run_benchmarks.hpp"
#include "tests/solids.hpp"

#include <benchmark/benchmark.h>
#include <fmt/format.h>
#include <malloc.h>
#include <sys/resource.h>
#include <time.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <map>
#include <numeric>
#include <string>
#include <vector>

using namespace thinspot;
using namespace thinspot::mesh;

namespace {

constexpr double kHigh = 0.03, kThick = 0.0024;  // of the coin [m]
const Point kMiddle(0.045, 0.05);

struct Start {
  Section section;
  Mesh mesh;
};

const Start& start() {
  static const Start made = [] {
    SectionSpec spec;
    spec.tank = {Tank::Shape::box, 0.09, 0.12, 0.1};
    spec.solids = {
        tests::solid(
            Role::part, "part", "coin",
            {{"diameter", kHigh}, {"thickness", kThick}, {"edge_radius", 3e-4}},
            kMiddle),
        tests::solid(Role::anode, "sheet", "plate",
                     {{"width", 0.002}, {"height", 0.07}}, {0.0078, 0.05})};
    Section section = build_section(spec);
    Grading grading;
    grading.polarization_length = {5e-3, 0};
    Mesh mesh = generate(section, grading);
    return Start{std::move(section), std::move(mesh)};
  }();
  return made;
}

double processor_seconds() {
  timespec now{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
  return double(now.tv_sec) + 1e-9 * double(now.tv_nsec);
}

/// Seconds of the processor that a call takes: it has one thread and waits for
/// nothing, and what else runs disturbs these less than the clock on the wall.
template <class F>
double seconds(F f) {
  const double from = processor_seconds();
  f();
  return processor_seconds() - from;
}

struct Way {
  double seconds = 0;  ///< within `refined`
  double nodes = 0;
};

/// Every triangle into four, in the last round only as many, from the first on,
/// as bring the mesh to the size.
Way all_over(double wanted) {
  Way way;
  Mesh m = start().mesh;
  while ((way.nodes = double(m.nodes.cols())) < 0.99 * wanted) {
    const double share = (wanted / way.nodes - 1) / 3;
    std::vector<int> marked(static_cast<std::size_t>(
        std::min(1.0, share) * double(m.triangles.cols())));
    std::iota(marked.begin(), marked.end(), 0);
    way.seconds += seconds([&] {
      m = share >= 1 ? refined(m, start().section)
                     : refined(m, start().section, marked);
    });
  }
  return way;
}

/// From the corner of the coin's box that is nearest [m].
double from_edge(const Point& p) {
  const Point side = (p - kMiddle).cwiseAbs() - Point(kThick, kHigh) / 2;
  return side.norm();
}

/// Round by round, those triangles that are longer than a share of their
/// distance from the coin's edges.
Way graded(double share) {
  Way way;
  Mesh m = start().mesh;
  std::vector<int> marked;
  for (;;) {
    marked.clear();
    for (int t = 0; t < int(m.triangles.cols()); ++t) {
      const Point a = m.nodes.col(m.triangles(0, t)),
                  b = m.nodes.col(m.triangles(1, t));
      const double room = std::max(1e-4, from_edge(0.5 * (a + b)));
      if ((b - a).norm() > share * room) marked.push_back(t);
    }
    way.nodes = double(m.nodes.cols());
    if (marked.empty()) return way;
    way.seconds += seconds([&] { m = refined(m, start().section, marked); });
  }
}

/// The share that comes nearest to the size: nodes go with its square.
double share_for(double wanted) {
  double share = 0.1;
  for (int k = 0; k < 4; ++k) share *= std::sqrt(graded(share).nodes / wanted);
  return share;
}

/// What an array costs besides the work on it. Left to itself, the library
/// takes the one way for small arrays and the other for large ones, and sizes
/// could not be compared.
enum Memory {
  kept,  ///< the process has the memory: the work alone
  fresh  ///< every array comes from the system, which clears it, page by page
};

void set(Memory memory) {
  mallopt(M_MMAP_MAX, memory == kept ? 0 : 65536);
  mallopt(M_MMAP_THRESHOLD, 128 * 1024);
  mallopt(M_TRIM_THRESHOLD, memory == kept ? -1 : 128 * 1024);
  if (memory == fresh) malloc_trim(0);
}

template <class F>
void report(benchmark::State& state, Memory memory, F way_to) {
  set(memory);
  if (memory == kept) way_to();  // takes what is needed
  Way way;
  for (auto _ : state) {
    way = way_to();
    state.SetIterationTime(way.seconds);
  }
  state.counters["nodes"] = way.nodes;
  state.counters["ns_per_node"] = benchmark::Counter(
      way.nodes * 1e-9, benchmark::Counter::kIsIterationInvariantRate |
                            benchmark::Counter::kInvert);
}

void everywhere(benchmark::State& state, Memory memory) {
  report(state, memory, [&] { return all_over(double(state.range(0))); });
}

void towards_the_edges(benchmark::State& state, Memory memory) {
  static std::map<std::int64_t, double> shares;
  double& share = shares[state.range(0)];
  if (share == 0) share = share_for(double(state.range(0)));
  report(state, memory, [&] { return graded(share); });
}

void sizes(benchmark::internal::Benchmark* b) {
  b->Arg(200'000)->Arg(1'000'000)->Arg(4'000'000);
  b->UseManualTime()->Unit(benchmark::kMillisecond);
  b->Repetitions(5)->ReportAggregatesOnly();
}

BENCHMARK_CAPTURE(everywhere, kept, kept)->Apply(sizes);
BENCHMARK_CAPTURE(everywhere, fresh, fresh)->Apply(sizes);
BENCHMARK_CAPTURE(towards_the_edges, kept, kept)->Apply(sizes);
BENCHMARK_CAPTURE(towards_the_edges, fresh, fresh)->Apply(sizes);

/// One line for each way, medians of all sizes side by side.
class Table : public benchmark::BenchmarkReporter {
 public:
  bool ReportContext(const Context& /*context*/) override {
    fmt::print(
        "Refining the mesh of a coin's section: processor time for each node\n"
        "of the mesh that comes out, median of 5 [ns]. kept: the process has\n"
        "the memory, so this is the work alone; fresh: the system hands out\n"
        "every array anew and clears it.\n\n"
        "{:<26} {:>6} {:>6} {:>6}  largest/smallest\n",
        "", "200k", "1M", "4M");
    return true;
  }
  void ReportRuns(const std::vector<Run>& runs) override {
    for (const Run& run : runs) {
      if (run.aggregate_name != "median") continue;
      if (row_ != run.run_name.function_name) {
        end_row();
        row_ = run.run_name.function_name;
        fmt::print("{:<26}", row_);
      }
      medians_.push_back(run.counters.at("ns_per_node").value);
      fmt::print(" {:6.1f}", medians_.back());
      std::fflush(stdout);
    }
  }
  void Finalize() override { end_row(); }

 private:
  void end_row() {
    if (medians_.empty()) return;
    const auto [least, most] =
        std::minmax_element(medians_.begin(), medians_.end());
    fmt::print("  {:.2f}\n", *most / *least);
    medians_.clear();
  }

  std::string row_;
  std::vector<double> medians_;
};

}  // namespace

int main(int argc, char** argv) {
  Table table;
  if (!bench::run_benchmarks(argc, argv, table)) return 2;
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  fmt::print("\nMost memory that the process had: {} MB\n",
             usage.ru_maxrss / 1024);
}
