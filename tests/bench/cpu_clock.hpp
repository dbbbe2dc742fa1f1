#pragma once

#include <sys/resource.h>
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
  const auto seconds = [](const timeval& t) {
    return static_cast<double>(t.tv_sec) +
           1e-6 * static_cast<double>(t.tv_usec);
  };
  double all = seconds_of_clock(CLOCK_PROCESS_CPUTIME_ID) +
               seconds(ended.ru_utime) + seconds(ended.ru_stime);
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
