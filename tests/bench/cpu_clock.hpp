#pragma once

#include "tests/processor_time.hpp"

#include <time.h>
#include <unistd.h>

#include <fstream>
#include <string>

namespace thinspot::bench {

inline double seconds_of_clock(clockid_t clock) {
  timespec t{};
  return ::clock_gettime(clock, &t) == 0
             ? static_cast<double>(t.tv_sec) +
                   1e-9 * static_cast<double>(t.tv_nsec)
             : 0;
}

/// What this process has used of the processors so far, its children among it,
/// those that have ended and those that still wait for work [s].
inline double cpu_seconds() {
  rusage ended{};
  ::getrusage(RUSAGE_CHILDREN, &ended);
  double all =
      seconds_of_clock(CLOCK_PROCESS_CPUTIME_ID) + tests::processor_time(ended);
  const std::string self = std::to_string(::getpid());
  std::ifstream in("/proc/" + self + "/task/" + self + "/children");
  for (pid_t child = 0; in >> child;) {
    clockid_t clock{};
    if (::clock_getcpuclockid(child, &clock) == 0)
      all += seconds_of_clock(clock);
  }
  return all;
}

}  // namespace thinspot::bench
