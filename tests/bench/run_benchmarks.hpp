#pragma once

#include <benchmark/benchmark.h>

namespace thinspot::bench {

/// All benchmarks of a program, told by a table of its own.
/// @returns false where the command line is not understood
inline bool run_benchmarks(int argc, char** argv,
                           benchmark::BenchmarkReporter& table) {
  benchmark::Initialize(&argc, argv);
  if (benchmark::ReportUnrecognizedArguments(argc, argv)) return false;
  benchmark::RunSpecifiedBenchmarks(&table);
  return true;
}

}  // namespace thinspot::bench
