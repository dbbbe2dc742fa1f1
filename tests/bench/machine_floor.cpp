// What this machine can do at best: bytes moved between memory and one core,
// and all of them, and operations of one core and all. Prints lines of a word
// and a number; the best of several runs counts.
#include "tests/bench/timing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <functional>
#include <thread>
#include <vector>

using namespace thinspot;

namespace {

// Three arrays of these are far more than a core's share of any cache.
constexpr std::size_t kNumbers = std::size_t{1} << 23;
constexpr int kRuns = 7;
constexpr int kRounds = 20'000'000;

/// Everybody at once; @returns seconds until the last is through.
double together(unsigned threads, const std::function<void(unsigned)>& work) {
  return bench::seconds_of([&] {
    std::vector<std::thread> all;
    for (unsigned k = 0; k < threads; ++k) all.emplace_back(work, k);
    for (std::thread& t : all) t.join();
  });
}

/// a = b + s c: three numbers moved for each, and the one that a processor
/// reads before it writes.
double bandwidth(unsigned threads) {
  struct Three {
    std::vector<double> a, b, c;
  };
  std::vector<Three> each(threads);
  together(threads, [&](unsigned k) {
    each[k] = {std::vector<double>(kNumbers, 0.),
               std::vector<double>(kNumbers, 1.),
               std::vector<double>(kNumbers, 2.)};
  });
  double best = 0;
  for (int run = 0; run < kRuns; ++run) {
    const double seconds = together(threads, [&](unsigned k) {
      Three& t = each[k];
      for (std::size_t j = 0; j < kNumbers; ++j)
        t.a[j] = t.b[j] + 1e-9 * run * t.c[j];
    });
    best = std::max(best, 4. * 8. * kNumbers * threads / seconds);
  }
  return best;
}

// Sums of products, as many at a time as hide what one takes; for whatever
// this processor has of wide registers.
#if defined(__x86_64__) && !defined(__SANITIZE_THREAD__)
__attribute__((target_clones("arch=x86-64-v4", "arch=x86-64-v3", "default")))
#endif
double
products(double x) {
  constexpr int kWide = 96;
  double sum[kWide];
  for (int j = 0; j < kWide; ++j) sum[j] = j;
  for (int k = 0; k < kRounds / kWide; ++k)
    for (int j = 0; j < kWide; ++j) sum[j] = sum[j] * x + 1e-3;
  double all = 0;
  for (double s : sum) all += s;
  return all;
}

double flops(unsigned threads) {
  std::vector<double> sums(threads);
  double best = 0;
  for (int run = 0; run < kRuns; ++run) {
    const double seconds = together(
        threads, [&](unsigned k) { sums[k] = products(0.999 - 1e-3 * run); });
    best = std::max(best, 2. * kRounds * threads / seconds);
  }
  // Used, so that it is done.
  return sums[0] > -1 ? best : 0;
}

}  // namespace

int main() {
  const unsigned all = std::max(1u, std::thread::hardware_concurrency());
  fmt::print("cores {}\n", all);
  fmt::print("bandwidth {:.4g}\nbandwidth_all {:.4g}\n", bandwidth(1),
             bandwidth(all));
  fmt::print("flops {:.4g}\nflops_all {:.4g}\n", flops(1), flops(all));
}
