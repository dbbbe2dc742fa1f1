#include "mesh/byte_sum.hpp"

namespace thinspot::mesh {

std::uint64_t byte_sum(std::string_view bytes) {
  std::uint64_t sum = 0xcbf29ce484222325u;
  for (const char c : bytes) {
    sum ^= static_cast<unsigned char>(c);
    sum *= 0x100000001b3u;
  }
  return sum;
}

}  // namespace thinspot::mesh
