#include "mesh/freed_memory.hpp"

#include <cstdlib>  // for what it says of the C library
#include <limits>

#ifdef __GLIBC__
#include <malloc.h>
#endif

namespace thinspot::mesh {

void keep_freed_memory() {
#ifdef __GLIBC__
  // No piece of memory of its own for a large matrix, nothing given back.
  ::mallopt(M_MMAP_MAX, 0);
  ::mallopt(M_TRIM_THRESHOLD, std::numeric_limits<int>::max());
#endif
}

}  // namespace thinspot::mesh
