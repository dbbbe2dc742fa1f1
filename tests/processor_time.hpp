#pragma once

#include <sys/resource.h>

namespace thinspot::tests {

inline double seconds(const timeval& t) {
  return static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_usec);
}

/// In programs and in the system [s].
inline double processor_time(const rusage& used) {
  return seconds(used.ru_utime) + seconds(used.ru_stime);
}

}  // namespace thinspot::tests
