#include "mesh/message.hpp"

#include <fcntl.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>

namespace thinspot::mesh {

namespace {

/// A length beyond it is no length: memory is taken as bytes come.
constexpr std::size_t kPiece = std::size_t{1} << 20;

bool receive(int from, char* bytes, std::size_t size) {
  while (size > 0) {
    const ssize_t got = ::read(from, bytes, size);
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) return false;
    bytes += got;
    size -= static_cast<std::size_t>(got);
  }
  return true;
}

}  // namespace

bool send_message(int to, const std::string& text) {
  const std::size_t size = text.size();
  std::string all(reinterpret_cast<const char*>(&size), sizeof size);
  all += text;
  for (std::size_t at = 0; at < all.size();) {
    const ssize_t sent =
        ::send(to, all.data() + at, all.size() - at, MSG_NOSIGNAL);
    if (sent < 0 && errno == EINTR) continue;
    if (sent <= 0) return false;
    at += static_cast<std::size_t>(sent);
  }
  return true;
}

std::optional<std::string> receive_message(int from) {
  std::size_t size = 0;
  if (!receive(from, reinterpret_cast<char*>(&size), sizeof size)) return {};
  std::string text;
  while (text.size() < size) {
    const std::size_t at = text.size();
    text.resize(at + std::min(kPiece, size - at));
    if (!receive(from, text.data() + at, text.size() - at)) return {};
  }
  return text;
}

void let_go_of_files(int except) {
  const int nowhere = ::open("/dev/null", O_RDWR);
  for (int fd : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO})
    if (nowhere >= 0) ::dup2(nowhere, fd);
  const auto kept = static_cast<unsigned>(except);
  if (kept > 3) ::close_range(3, kept - 1, 0);
  ::close_range(kept + 1, ~0U, 0);
}

}  // namespace thinspot::mesh
