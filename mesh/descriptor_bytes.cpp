#include "mesh/descriptor_bytes.hpp"

#include <unistd.h>

#include <algorithm>
#include <cerrno>

namespace thinspot::mesh {

namespace {

constexpr std::size_t kPiece = std::size_t{1} << 18;

}  // namespace

bool read_all(int descriptor, std::uintmax_t most, std::string& bytes) {
  while (bytes.size() <= most) {
    const std::size_t at = bytes.size();
    bytes.resize(at + std::min<std::uintmax_t>(kPiece, most - at + 1));
    const ssize_t got =
        ::read(descriptor, bytes.data() + at, bytes.size() - at);
    bytes.resize(at + static_cast<std::size_t>(std::max<ssize_t>(got, 0)));
    if (got == 0) return true;
    if (got < 0 && errno != EINTR) return false;
  }
  return true;
}

bool write_all(int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t put = ::write(descriptor, bytes.data(), bytes.size());
    if (put < 0 && errno == EINTR) continue;
    if (put == 0) errno = EIO;
    if (put <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(put));
  }
  return true;
}

}  // namespace thinspot::mesh
