#include "tests/fuzz/target.hpp"

#include <cstddef>
#include <cstdint>

// libFuzzer's own name for what it calls.
// NOLINTNEXTLINE(readability-identifier-naming)
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data,
                                      std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  return thinspot::fuzz::one_input(bytes) ? 0 : -1;
}
